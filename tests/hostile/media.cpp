#include "tests/hostile/media.h"

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <cstdlib>
#include <iterator>
#include <vector>

#include <nlohmann/json.hpp>

namespace acre::tests {

namespace {

std::string near(std::string_view text, std::size_t at) {
    const std::size_t begin = at < 40 ? 0 : at - 40;
    std::string shown;
    for (const char c : text.substr(begin, 80))
        shown += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? '~' : c;
    return " near: " + shown;
}

// The character at `at`, which moves behind it; -1: not UTF-8.
std::int32_t character(std::string_view text, std::size_t& at) {
    const auto byte = [&](std::size_t i) {
        return i < text.size() ? static_cast<unsigned char>(text[i]) : 0;
    };
    const int first = byte(at++);
    if (first < 0x80)
        return first;
    const int more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : first >= 0xC2 ? 1 : -1;
    if (more < 0 || first > 0xF4)
        return -1;
    std::int32_t code = first & (0x3F >> more);
    for (int i = 0; i < more; ++i, ++at) {
        if ((byte(at) & 0xC0) != 0x80)
            return -1;
        code = code << 6 | (byte(at) & 0x3F);
    }
    return code;
}

bool is_number(const std::string& text) {
    char* end = nullptr;
    std::strtod(text.c_str(), &end);
    return !text.empty() && *end == '\0' && text.find_first_of("xXnN") == std::string::npos;
}

class Markup {
  public:
    Markup(std::string_view text, std::set<std::string>& seen) : text_(text), seen_(seen) {}

    std::string fault() {
        skip("<!DOCTYPE html>");
        if (skip("<?xml"))
            at_ = text_.find("?>") + 2;
        while (at_ < text_.size() && what_.empty())
            if (text_[at_] == '<')
                tag();
            else if (text_[at_] == '&')
                entity();
            else if (text_[at_] == '>')
                say("a bare >");
            else
                ++at_;
        if (what_.empty() && !open_.empty())
            say("<" + open_.back() + "> is not closed");
        return what_;
    }

  private:
    std::string_view text_;
    std::set<std::string>& seen_;
    std::size_t at_ = 0;
    std::vector<std::string> open_;
    std::string what_;

    void say(const std::string& what) { what_ = what + near(text_, at_); }
    bool skip(std::string_view word) {
        const bool here = text_.substr(at_).starts_with(word);
        at_ += here ? word.size() : 0;
        return here;
    }
    std::string name() {
        const std::size_t begin = at_;
        while (at_ < text_.size() && (std::isalnum(static_cast<unsigned char>(text_[at_])) != 0 ||
                                      text_[at_] == '-' || text_[at_] == ':'))
            ++at_;
        return std::string(text_.substr(begin, at_ - begin));
    }
    void entity() {
        for (const char* known : {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;", "&nbsp;"})
            if (skip(known))
                return;
        say("a bare &");
    }
    void tag() {
        ++at_;
        if (skip("/")) {
            const std::string closed = name();
            if (open_.empty() || open_.back() != closed || !skip(">"))
                say("</" + closed + "> closes nothing");
            else
                open_.pop_back();
            return;
        }
        const std::string element = name();
        seen_.insert(element);
        constexpr const char* refused[] = {"script", "iframe", "object", "embed", "link",
                                           "img",    "image",  "form",   "base",  "foreignObject"};
        if (element.empty() ||
            std::find(std::begin(refused), std::end(refused), element) != std::end(refused))
            return say("<" + element + "> may not be here");
        while (what_.empty() && !skip(">")) {
            if (skip("/>"))
                return;
            if (!skip(" ") && !skip("\n"))
                return say("an attribute without a blank before it");
            if (text_.substr(at_, 1) != ">" && text_.substr(at_, 1) != "/")
                attribute(element);
        }
        if (element == "style") {
            const std::size_t end = text_.find("</style>", at_);
            const std::string_view inside = text_.substr(at_, end - at_);
            if (end == std::string_view::npos || inside.find('<') != std::string_view::npos ||
                inside.find("url(") != std::string_view::npos ||
                inside.find("@import") != std::string_view::npos)
                return say("a style with something in it");
            at_ = end + 8;
        } else if (element != "meta" && element != "br" && element != "hr") {
            open_.push_back(element);
        }
    }
    void attribute(const std::string& element) {
        const std::string called = name();
        seen_.insert(element + "@" + called);
        if (called.empty() || called.starts_with("on") || called == "src" ||
            called.ends_with("href") || !skip("=\""))
            return say("an attribute `" + called + "` that may not be here");
        while (at_ < text_.size() && text_[at_] != '"' && what_.empty())
            if (text_[at_] == '&')
                entity();
            else if (text_[at_] == '<')
                say("a bare < in an attribute");
            else
                ++at_;
        ++at_;
    }
};

} // namespace

std::string terminal_fault(std::string_view text, bool carriage_returns) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t begin = at;
        const std::int32_t c = character(text, at);
        const bool line_end =
            c == '\n' || (carriage_returns && c == '\r' && at < text.size() && text[at] == '\n');
        if ((c < 0x20 && !line_end) || (c >= 0x7F && c <= 0x9F) || c == 0xAD || c == 0x61C ||
            (c >= 0x200B && c <= 0x200F) || (c >= 0x2028 && c <= 0x202E) ||
            (c >= 0x2060 && c <= 0x206F) || c == 0xFEFF || (c >= 0xE0000 && c <= 0xE007F))
            return "character " + std::to_string(c) + near(text, begin);
    }
    return {};
}

std::string markup_fault(std::string_view text, std::set<std::string>& seen) {
    if (std::string fault = terminal_fault(text); !fault.empty())
        return fault;
    return Markup(text, seen).fault();
}

std::string csv_fault(std::string_view text) {
    if (std::string fault = terminal_fault(text, true); !fault.empty())
        return fault;
    std::size_t columns = 0;
    std::size_t cells = 0;
    for (std::size_t at = 0; at < text.size();) {
        std::string cell;
        if (text[at] == '"') {
            for (++at; at < text.size() && !(text[at] == '"' && text.substr(at, 2) != "\"\"");
                 ++at) {
                cell += text[at];
                at += text[at] == '"' ? 1 : 0;
            }
            ++at;
        } else {
            for (; at < text.size() && text[at] != ',' && text[at] != '\r'; ++at) {
                if (text[at] == '"')
                    return "a bare quote" + near(text, at);
                cell += text[at];
            }
        }
        const std::size_t first = cell.find_first_not_of(" \t\r\n");
        if (first != std::string::npos &&
            std::string_view("=+-@|%").find(cell[first]) != std::string_view::npos &&
            !is_number(cell))
            return "a cell that a spreadsheet would run" + near(text, at);
        ++cells;
        if (at < text.size() && text[at] == ',') {
            ++at;
            continue;
        }
        if (text.substr(at, 2) != "\r\n")
            return "a line that does not end in CRLF" + near(text, at);
        at += 2;
        if (columns == 0)
            columns = cells;
        if (cells != columns)
            return "a line of " + std::to_string(cells) + " cells and not " +
                   std::to_string(columns) + near(text, at);
        cells = 0;
    }
    return columns == 0 ? "no line" : "";
}

std::string json_fault(std::string_view text) {
    for (std::size_t at = 0; at < text.size(); ++at)
        if ((text[at] < 0x20 && text[at] != '\n') || text[at] == 0x7F) // beyond ASCII is below zero
            return "a character that is not ASCII" + near(text, at);
    return nlohmann::json::accept(text) ? "" : "no JSON";
}

} // namespace acre::tests
