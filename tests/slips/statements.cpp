#include "tests/slips/statements.h"

#include <algorithm>
#include <regex>
#include <set>

namespace acre::tests {

const std::string number_pattern = R"([0-9][0-9,]*(?:\.[0-9]+)?)";

std::string blotted(const std::string& text) {
    std::string out = text;
    bool quoted = false;
    bool comment = false;
    for (char& c : out) {
        if (c == '\n')
            quoted = comment = false;
        else if (c == '"' && !comment)
            quoted = !quoted;
        else if (quoted || comment)
            c = '~';
        else if (c == '#') {
            comment = true;
            c = '~';
        }
    }
    return out;
}

std::size_t statement_at(const std::string& text, std::size_t at) {
    static const std::regex begins(
        R"( *(given|set|cost|price|event|use|model|season|for|date|field|block|option|part|)"
        R"(choice|noun|require|caution|table|define|correlate|overhead|reserve|markup|)"
        R"(margin|at|round|library|show|count|fleet|[a-z_A-Z0-9]+ *:)[^\n]*)");
    for (;;) {
        const std::size_t before = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
        const std::size_t begin = before == std::string::npos ? 0 : before + 1;
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        if (begin == 0 || std::regex_match(text.substr(begin, end - begin), begins))
            return begin;
        at = begin - 1;
    }
}

std::string name_of_statement(const std::string& text, std::size_t begin) {
    static const std::regex words(R"( *([A-Za-z0-9_]+) *:? *([A-Za-z0-9_.]*))");
    std::smatch found;
    const std::string rest = text.substr(begin, 120);
    if (!std::regex_search(rest, found, words, std::regex_constants::match_continuous))
        return "the top";
    const std::set<std::string> named = {"given", "set", "cost", "event"};
    const std::string first = found[1];
    return named.contains(first) ? first + " " + found[2].str() : first;
}

double value_of(std::string digits) {
    std::erase(digits, ',');
    return std::stod(digits);
}

std::optional<std::pair<Literal, Literal>> within_of(const std::string& statement) {
    const std::string literal = R"(-?\$?()" + number_pattern + R"()((?:/| )[^\s]+)?)";
    const std::regex within("within " + literal + R"( \.\. )" + literal);
    std::smatch found;
    if (!std::regex_search(statement, found, within))
        return std::nullopt;
    const auto sign = [&](std::size_t at) {
        const std::string before =
            statement.substr(0, static_cast<std::size_t>(found.position(at)));
        return before.ends_with('-') || before.ends_with("-$") ? -1.0 : 1.0;
    };
    return std::pair(Literal{sign(1) * value_of(found[1]), found[2]},
                     Literal{sign(3) * value_of(found[3]), found[4]});
}

std::string statement_text(const std::string& text, std::size_t begin) {
    std::size_t end = text.find('\n', begin);
    while (end != std::string::npos && end + 1 < text.size() &&
           statement_at(text, end + 1) == begin)
        end = text.find('\n', end + 1);
    return text.substr(begin, end == std::string::npos ? end : end - begin);
}

WholeFiles::WholeFiles(Stages& stages, std::string base, const std::vector<std::string>& names)
    : base_(std::move(base)) {
    for (const std::string& name : names)
        texts_[name] = stages[base_].text(name);
}

std::string WholeFiles::given(const std::string& name, const std::string& model) const {
    const std::size_t dot = name.rfind('.');
    std::string file = dot == std::string::npos ? model : name.substr(0, dot);
    std::replace(file.begin(), file.end(), '_', '-');
    const std::string path = (base_ == "shipped" ? "models/" : "") + file + ".rate";
    const auto at = texts_.find(path);
    if (at == texts_.end())
        return "";
    const std::regex line("(^|\n) *given +" + name.substr(dot + 1) + "[ :=]");
    std::smatch found;
    if (!std::regex_search(at->second, found, line))
        return "";
    const std::size_t begin = static_cast<std::size_t>(found.position(0) + found.length(1));
    return statement_text(at->second, begin);
}

std::string WholeFiles::model_of(const std::string& job) const {
    std::smatch found;
    const std::string& text = texts_.at(job);
    return std::regex_search(text, found, std::regex("(?:^|\n)model +\"([^\"]+)\""))
               ? found[1].str()
               : "";
}

bool WholeFiles::reads(const std::string& job, const std::string& file) const {
    std::vector<std::string> waiting = {model_of(job)};
    std::set<std::string> seen;
    while (!waiting.empty()) {
        const std::string name = waiting.back();
        waiting.pop_back();
        const std::string path = (base_ == "shipped" ? "models/" : "") + name + ".rate";
        if (path == file)
            return true;
        const auto at = texts_.find(path);
        if (at == texts_.end() || !seen.insert(name).second)
            continue;
        static const std::regex use("(?:^|\n) *use \"([^\"]+)\"");
        for (std::sregex_iterator it(at->second.begin(), at->second.end(), use), end; it != end;
             ++it)
            waiting.push_back((*it)[1]);
    }
    return false;
}

} // namespace acre::tests
