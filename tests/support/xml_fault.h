// What is wrong with a text as XML 1.0 (fifth edition): tags that nest, attributes in quotes and
// each once, `&` only as an entity, no control characters (2.2, 2.3, 2.4, 3.1). Comments and
// declarations do not occur here.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace acre::tests {

class XmlScan {
  public:
    explicit XmlScan(std::string_view xml) : xml_(xml) {}

    std::string fault() {
        while (at_ < xml_.size() && fault_.empty())
            if (xml_[at_] != '<')
                character();
            else if (after(at_, "</"))
                end_tag();
            else
                tag();
        return !fault_.empty() ? fault_ : open_.empty() && roots_ == 1 ? "" : "not closed";
    }

  private:
    std::string_view xml_;
    std::size_t at_ = 0, roots_ = 0;
    std::vector<std::string> open_;
    std::string fault_;

    bool after(std::size_t at, std::string_view what) const {
        return xml_.substr(std::min(at, xml_.size()), what.size()) == what;
    }
    std::string take_name() {
        const std::size_t begin = at_;
        const auto is_name = [](char c) {
            return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                   c == '-' || c == ':';
        };
        while (at_ < xml_.size() && is_name(xml_[at_]))
            ++at_;
        return std::string(xml_.substr(begin, at_ - begin));
    }
    // One character of a text or a value.
    void character() {
        const char c = xml_[at_];
        if (c == '&') {
            for (const std::string_view known :
                 {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;", "&apos;"})
                if (after(at_, known)) {
                    at_ += known.size();
                    return;
                }
            fault_ = "a bare & at " + std::string(xml_.substr(at_, 20));
        } else if (static_cast<unsigned char>(c) < 0x20 && c != '\n') {
            fault_ = "a control character";
        } else if (open_.empty() && c != '\n') {
            fault_ = "text outside the root";
        }
        ++at_;
    }
    void end_tag() {
        at_ += 2;
        const std::string name = take_name();
        if (open_.empty() || open_.back() != name || !after(at_, ">"))
            fault_ = "</" + name + "> closes nothing";
        else
            open_.pop_back();
        ++at_;
    }
    void tag() {
        ++at_;
        const std::string name = take_name();
        if (name.empty())
            fault_ = "a bare <";
        if (open_.empty() && ++roots_ > 1)
            fault_ = "two roots";
        open_.push_back(name);
        std::vector<std::string> attributes;
        while (fault_.empty() && after(at_, " "))
            attribute(name, attributes);
        if (after(at_, "/>")) {
            open_.pop_back();
            at_ += 2;
        } else if (after(at_, ">")) {
            ++at_;
        } else if (fault_.empty()) {
            fault_ = "<" + name + " does not end";
        }
    }
    void attribute(const std::string& tag, std::vector<std::string>& others) {
        ++at_;
        const std::string name = take_name();
        if (name.empty() || !after(at_, "=\"")) {
            fault_ = "an attribute of <" + tag + "> without a value";
            return;
        }
        if (std::find(others.begin(), others.end(), name) != others.end())
            fault_ = name + " twice in <" + tag + ">";
        others.push_back(name);
        at_ += 2;
        while (fault_.empty() && at_ < xml_.size() && xml_[at_] != '"')
            if (xml_[at_] == '<')
                fault_ = "< in an attribute";
            else
                character();
        ++at_;
    }
};

// Empty: nothing.
inline std::string xml_fault(std::string_view xml) {
    return XmlScan(xml).fault();
}

} // namespace acre::tests
