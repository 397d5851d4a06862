#include "tests/slips/operators.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <regex>
#include <set>
#include <utility>

#include <fmt/format.h>

namespace acre::tests {
namespace {

namespace fs = std::filesystem;

constexpr std::uint64_t seed = 2027;
const std::string number = R"([0-9][0-9,]*(?:\.[0-9]+)?)";

// The text with what stands in quotes and comments blotted out, byte for byte.
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

// Where the statement begins that a place belongs to: a line whose first word begins one.
std::size_t statement_at(const std::string& text, std::size_t at) {
    static const std::regex begins(
        R"( *(given|set|cost|price|event|use|model|season|for|date|field|block|option|part|choice|noun|require|caution|table|define|correlate|overhead|contingency|markup|margin|at|round|library|[a-z_A-Z0-9]+ *:)[^\n]*)");
    for (;;) {
        const std::size_t before = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
        const std::size_t begin = before == std::string::npos ? 0 : before + 1;
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        if (begin == 0 || std::regex_match(text.substr(begin, end - begin), begins))
            return begin;
        at = begin - 1;
    }
}

// "given area", "set site.miles", "margin".
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

// A number with its unit as it is written: "$4.35" with "/gal", "60" with " ac".
struct Literal {
    double value = 0;
    std::string unit;
};

double value_of(std::string digits) {
    std::erase(digits, ',');
    return std::stod(digits);
}

std::optional<std::pair<Literal, Literal>> within_of(const std::string& statement) {
    const std::string literal = R"(-?\$?()" + number + R"()((?:/| )[^\s]+)?)";
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

// Whole files, read once.
class Files {
  public:
    Files(Stages& stages, std::string base, std::vector<std::string> names)
        : base_(std::move(base)) {
        for (const std::string& name : names)
            texts_[name] = stages[base_].text(name);
    }
    const std::string& base() const { return base_; }
    const std::map<std::string, std::string>& texts() const { return texts_; }

    // The statement of a given, found by the name that a season or a job sets: "crawler.tip".
    std::string given(const std::string& name, const std::string& model) const {
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

    std::string model_of(const std::string& job) const {
        std::smatch found;
        const std::string& text = texts_.at(job);
        return std::regex_search(text, found, std::regex("(?:^|\n)model +\"([^\"]+)\""))
                   ? found[1].str()
                   : "";
    }

    // Whether the job's price rests on the file: the model it names and all that it uses.
    bool reads(const std::string& job, const std::string& file) const {
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

  private:
    std::string base_;
    std::map<std::string, std::string> texts_;
};

// Makes the slips of one file.
class Maker {
  public:
    Maker(const Files& files, const std::string& file, std::vector<Mutant>& out)
        : files_(files),
          file_(file),
          text_(files.texts().at(file)),
          plain_(blotted(text_)),
          out_(out) {}

    void make() {
        drop_percent();
        drop_unit();
        swap_unit();
        flip_sign();
        misspell();
        misspell_title();
        re_prefix();
        shift_decimal();
        drop_parts();
        habits();
        declare_other();
        drop_factor();
    }

  private:
    bool is_job() const { return file_.ends_with(".job"); }
    bool is_season() const { return file_.ends_with(".season"); }

    void add(const std::string& rule, std::size_t begin, std::size_t end, std::string replacement) {
        Mutant mutant;
        mutant.rule = rule;
        mutant.base = files_.base();
        mutant.file = file_;
        mutant.begin = begin;
        mutant.end = end;
        mutant.replacement = std::move(replacement);
        const std::size_t start = statement_at(plain_, begin);
        const std::string label = rule + " " + file_ + " " + name_of_statement(plain_, start);
        const int count = ++labels_[label];
        mutant.name = count == 1 ? label : label + " " + std::to_string(count);
        mutant.runs = runs(start);
        if (!mutant.runs.empty())
            out_.push_back(std::move(mutant));
    }

    // Prices that rest on the statement.
    std::vector<std::string> runs(std::size_t start) const {
        if (is_job()) {
            const std::size_t option = plain_.rfind("\noption \"", start);
            if (option == std::string::npos || plain_[start] != ' ' ||
                plain_.rfind("\nblock ", start) + 1 > option + 1)
                return {"price " + file_};
            const std::size_t title = option + 9;
            return {"price " + file_ + " --option \"" +
                    text_.substr(title, text_.find('"', title) - title) + "\""};
        }
        std::string model = file_;
        if (is_season() && files_.base() == "shipped") {
            std::string name = name_of_statement(plain_, start);
            name = name.substr(name.find(' ') + 1);
            name = name.substr(0, name.find('.'));
            std::replace(name.begin(), name.end(), '_', '-');
            model = "models/" + name + ".rate";
        }
        std::vector<std::string> lines;
        for (const auto& [job, text] : files_.texts())
            if (job.ends_with(".job") && lines.size() < 2 && is_one_of_its_kind(job) &&
                (files_.base() != "shipped" || files_.reads(job, model)))
                lines.push_back("price " + job);
        return lines;
    }
    // The others have the models of these.
    static bool is_one_of_its_kind(const std::string& job) {
        static const std::set<std::string> more = {"02", "03", "04", "06", "07",
                                                   "08", "09", "16", "17"};
        return !job.starts_with("examples/") || !more.contains(job.substr(9, 2));
    }

    template <class Function> void each(const std::string& pattern, Function function) const {
        const std::regex regex(pattern);
        for (std::sregex_iterator it(plain_.begin(), plain_.end(), regex), end; it != end; ++it)
            function(*it);
    }
    static std::size_t at(const std::smatch& match, std::size_t group) {
        return static_cast<std::size_t>(match.position(group));
    }
    static std::size_t after(const std::smatch& match, std::size_t group) {
        return at(match, group) + static_cast<std::size_t>(match.length(group));
    }

    // Whether `value` in the unit written is a lawful value of the given that the statement sets;
    // nothing where it is the value of none, or has no range in this unit.
    std::optional<bool> lawful(std::size_t place, double value, const std::string& unit) const {
        const std::size_t start = statement_at(plain_, place);
        const std::string name = name_of_statement(plain_, start);
        const std::size_t equals = plain_.find(" = ", start);
        if (equals == std::string::npos || equals + 5 < place)
            return std::nullopt;
        std::string statement;
        if (name.starts_with("given "))
            statement = statement_text(plain_, start);
        else if (name.starts_with("set "))
            statement = files_.given(name.substr(4), is_job() ? files_.model_of(file_) : "ripping");
        const auto range = within_of(statement);
        if (!range || (range->first.unit != unit && range->second.unit != unit))
            return std::nullopt;
        return value >= range->first.value && value <= range->second.value;
    }

    void drop_percent() {
        each(
            "(" + number + ")( %)(?![/A-Za-z])",
            [&](const std::smatch& m) { add("drop-percent", at(m, 2), after(m, 2), ""); });
    }

    // Of a number in a formula or a clause; words that are no units follow numbers too.
    static bool is_word(const std::string& word) {
        static const std::set<std::string> words = {
            "then",   "otherwise", "and", "or", "within", "swing",  "because", "over", "with",
            "covers", "when",      "is",  "by", "to",     "native", "costs",   "may"};
        return words.contains(word);
    }
    void each_unit(const auto& function) const {
        each(R"([=.(*+,<>-] ?(?:\.\. )?()" + number + R"()( )([A-Za-z][A-Za-z0-9^/.()%$]*))",
             [&](const std::smatch& m) {
                 if (!is_word(m[3]))
                     function(m, 1, 2, 3);
             });
        each(R"(\$()" + number + R"()(/)([A-Za-z]+))",
             [&](const std::smatch& m) { function(m, 1, 2, 3); });
    }
    static std::string unit_word(const std::smatch& m) {
        std::string unit = m[3];
        while (unit.ends_with(')') && unit.find('(') == std::string::npos)
            unit.pop_back();
        return unit;
    }

    void drop_unit() {
        each_unit([&](const std::smatch& m, std::size_t, std::size_t gap, std::size_t unit) {
            add("drop-unit", at(m, gap), at(m, unit) + unit_word(m).size(), "");
        });
    }

    // Another of the same kind, with how many of the old one it is; or one of another kind.
    struct Swap {
        std::string unit;
        double is; // 0: of another kind
    };
    static const std::map<std::string, std::vector<Swap>>& swaps() {
        static const std::map<std::string, std::vector<Swap>> all = {
            {"ft", {{"in", 1 / 12.0}, {"ac", 0}}},
            {"in", {{"ft", 12}, {"h", 0}}},
            {"ac", {{"ha", 2.4710538146717}, {"ft", 0}}},
            {"h", {{"min", 1 / 60.0}, {"day", 0}}},
            {"min", {{"h", 60}, {"mi", 0}}},
            {"mi", {{"ft", 1 / 5280.0}, {"h", 0}}},
            {"mi/h", {{"ft/min", 60.0 / 5280}, {"h/mi", 0}}},
            {"mph", {{"ft/min", 60.0 / 5280}, {"mi", 0}}},
            {"gal", {{"L", 1 / 3.785411784}, {"h", 0}}},
            {"gal/h", {{"L/h", 1 / 3.785411784}, {"h/gal", 0}}},
            {"lb", {{"ton", 2000}, {"lbf", 0}}},
            {"ton", {{"lb", 1 / 2000.0}, {"cy", 0}}},
            {"ac/h", {{"h/ac", 0}}},
            {"h/ac", {{"min/ac", 1 / 60.0}, {"ac/h", 0}}},
            {"day", {{"h", 0}, {"shift", 0}}},
            {"shift", {{"day", 0}}},
            {"h/shift", {{"h/day", 0}, {"min/shift", 1 / 60.0}}},
            {"h/yr", {{"h/mo", 12}, {"h/day", 0}}},
            {"tree", {{"ac", 0}}},
            {"cy", {{"gal", 231 / 46656.0}, {"ton", 0}}}};
        return all;
    }
    void swap_unit() {
        each_unit([&](const std::smatch& m, std::size_t digits, std::size_t gap, std::size_t unit) {
            const auto found = swaps().find(unit_word(m));
            if (found == swaps().end())
                return;
            const bool below = m[gap] == "/";
            for (const Swap& swap : found->second) {
                if (swap.is != 0) { // a plain change where the range allows it, or there is none
                    const double value = value_of(m[digits]) * (below ? 1 / swap.is : swap.is);
                    const auto is = lawful(at(m, digits), value, m[gap].str() + unit_word(m));
                    if (!is || *is)
                        continue;
                }
                const std::size_t begin = at(m, unit);
                add("swap-unit", begin, begin + unit_word(m).size(), swap.unit);
            }
        });
    }

    void flip_sign() {
        const std::string steps = "(?:given|set|cost)[^\n=]*= |overhead +|contingency +|markup "
                                  "+|margin +|at least +|round "
                                  "up to +|round to +";
        each("(" + steps + ")(\\$?" + number + ")([ /][^ \n]+)?", [&](const std::smatch& m) {
            const std::string digits = m[2].str().substr(m[2].str()[0] == '$' ? 1 : 0);
            const auto is = lawful(at(m, 2), -value_of(digits), m[3]);
            if (value_of(digits) != 0 && (!is || !*is))
                add("flip-sign", at(m, 2), at(m, 2), "-");
        });
    }

    // Two letters in the middle change places.
    static std::string swapped(std::string word) {
        std::size_t i = word.size() / 2;
        while (i + 1 < word.size() && (word[i] == word[i + 1] || word[i] == '.' ||
                                       word[i + 1] == '.' || word[i] == ' ' || word[i + 1] == ' '))
            ++i;
        if (i + 1 < word.size())
            std::swap(word[i], word[i + 1]);
        return word;
    }
    void misspell() {
        static const std::set<std::string> words = {
            "given",     "within", "swing",  "because",   "over",    "cost",    "costs",
            "price",     "part",   "each",   "block",     "caution", "require", "use",
            "with",      "when",   "then",   "margin",    "markup",  "lump",    "covers",
            "otherwise", "noun",   "event",  "overhead",  "round",   "least",   "choice",
            "season",    "model",  "date",   "field",     "option",  "heading", "contingency",
            "table",     "define", "native", "correlate", "hold",    "above",   "below",
            "error",     "known",  "source", "ours",      "unit",    "may",     "be",
            "negative"};
        each(R"(([A-Za-z][A-Za-z0-9_]*(?:\.[a-z_A-Z0-9]+)?))", [&](const std::smatch& m) {
            const std::string word = m[1];
            const std::size_t begin = at(m, 1);
            const bool unit =
                begin > 1 && (plain_[begin - 1] == '/' || plain_[begin - 1] == '~' ||
                              (plain_[begin - 1] == ' ' && std::isdigit(plain_[begin - 2]) != 0));
            const std::string name = name_of_statement(plain_, statement_at(plain_, begin));
            const bool declared = name == word || name == "given " + word ||
                                  name == "cost " + word || name == "event " + word;
            if (word.size() < 4 || words.contains(word) || unit || declared ||
                swapped(word) == word || plain_[begin - (begin > 0 ? 1 : 0)] == '"')
                return;
            add("misspell", begin, after(m, 1), swapped(word));
        });
    }
    void misspell_title() {
        static const std::regex titles(
            R"((?:^|\n| )(model|season|covers|use) +((?:"[^"\n]+", )*)\"([^"\n]{4,})\")");
        for (std::sregex_iterator it(text_.begin(), text_.end(), titles), end; it != end; ++it)
            if (is_job() || ((*it)[1] != "model" && (*it)[1] != "season"))
                add("misspell-title", at(*it, 3), after(*it, 3), swapped((*it)[3]));
    }

    void re_prefix() {
        each(R"(set +([a-z_]+\.)?([a-z_0-9]+) *=)",
             [&](const std::smatch& m) {
                 const std::string head = m[1];
                 if (head.empty()) {
                     add("re-prefix", at(m, 2), at(m, 2), "site.");
                     return;
                 }
                 add("re-prefix", at(m, 1), after(m, 1), "");
                 add("re-prefix", at(m, 1), after(m, 1), head == "crew." ? "site." : "crew.");
             });
        each(R"([=*+(/-] (prices|crew|crawler|site|tools)\.)", [&](const std::smatch& m) {
            add("re-prefix", at(m, 1), after(m, 1), m[1] == "crew" ? "site" : "crew");
        });
    }

    // The point of a unit price one place to the left or to the right. Of the newcomer's, which
    // state no range, it is a plain change.
    void shift_decimal() {
        each(R"((?:given|set|cost)[^\n=]*= \$()" + number + R"()(/[A-Za-z]+))",
             [&](const std::smatch& m) {
                 for (const double factor : {10.0, 0.1}) {
                     const double value = value_of(m[1]) * factor;
                     const auto is = lawful(at(m, 1), value, m[2]);
                     if (value == 0 || (is && *is) || (!is && files_.base() != "shipped"))
                         continue;
                     add("shift-decimal", at(m, 1), after(m, 1), fmt::format("{}", value));
                 }
             });
    }

    void drop_parts() {
        each(
            "(?:^|\n)(season [^\n]*)\n",
            [&](const std::smatch& m) {
                if (is_job())
                    add("drop-season", at(m, 1), after(m, 1), "");
            });
        each(R"((?:^|\n)price [^\n]*?( covers [^\n]*)\n)",
             [&](const std::smatch& m) { add("drop-covers", at(m, 1), after(m, 1), ""); });
        each(R"((?:^|\n) *cost [^\n]*?( over [^"\n]*))",
             [&](const std::smatch& m) { add("drop-over", at(m, 1), after(m, 1), " "); });
    }

    // Written as elsewhere: the mend gives back the very price.
    void habits() {
        each(R"(("~{3,60}"))",
             [&](const std::smatch& m) {
                 add("other-quotes", at(m, 1), after(m, 1),
                     "\u201C" + text_.substr(at(m, 1) + 1, after(m, 1) - at(m, 1) - 2) + "\u201D");
             });
        each(R"([0-9](,)[0-9]{3}(?![0-9]))",
             [&](const std::smatch& m) { add("space-number", at(m, 1), after(m, 1), " "); });
        each(
            "\\$" + number + "(/)[a-z]+(?![a-z./^])",
            [&](const std::smatch& m) { add("per-unit", at(m, 1), after(m, 1), " per "); });
        each(R"("~{3,60}("))",
             [&](const std::smatch& m) { add("drop-quote", at(m, 1), after(m, 1), ""); });
        static const std::map<std::string, std::string> words = {
            {"h", "hours"},  {"ac", "acres"},  {"gal", "gallons"}, {"mi", "miles"},
            {"ft", "feet"},  {"in", "inches"}, {"lb", "pounds"},   {"min", "minutes"},
            {"day", "days"}, {"mi/h", "MI/H"}, {"gal/h", "GAL/H"}, {"tree", "trees"}};
        each_unit([&](const std::smatch& m, std::size_t, std::size_t, std::size_t unit) {
            if (const auto found = words.find(unit_word(m)); found != words.end())
                add("spelled-unit", at(m, unit), at(m, unit) + found->first.size(), found->second);
        });
        each(R"((\)))",
             [&](const std::smatch& m) { add("drop-parenthesis", at(m, 1), after(m, 1), ""); });
    }

    // A line declared in another unit than its formula gives.
    void declare_other() {
        static const std::map<std::string, std::string> others = {
            {"h", "mi"},      {"mi", "h"},       {"ft", "h"},      {"ac", "h"},
            {"$/h", "$/gal"}, {"$/mi", "$/h"},   {"$/ac", "$/h"},  {"gal/h", "h/gal"},
            {"ac/h", "h/ac"}, {"h/ac", "ac/h"},  {"$", "$/h"},     {"1", "h"},
            {"gal", "gal/h"}, {"tree", "ac"},    {"lb", "ft"},     {"mi/h", "mi"},
            {"load", "h"},    {"$/load", "$/h"}, {"h/day", "day"}, {"day", "h"}};
        each(R"((?:^|\n) *(?:cost )?[a-z_0-9]+ *: ([^ =\n]+) +=)", [&](const std::smatch& m) {
            if (const auto found = others.find(m[1]); found != others.end())
                add("declare-other", at(m, 1), after(m, 1), found->second);
        });
    }

    // A factor left out of a formula. Of a plain number it is a plain change: only its mends count.
    void drop_factor() {
        each(R"([=(+-] ([a-z_][a-z_0-9.]* \* ))",
             [&](const std::smatch& m) {
                 const std::size_t count = out_.size();
                 add("drop-factor", at(m, 1), after(m, 1), "");
                 if (out_.size() > count)
                     out_.back().mends_only = true;
             });
    }

    const Files& files_;
    const std::string& file_;
    const std::string& text_;
    const std::string plain_;
    std::vector<Mutant>& out_;
    std::map<std::string, int> labels_;
};

std::uint64_t hash(const std::string& text) { // FNV-1a
    std::uint64_t value = 14695981039346656037ULL ^ seed;
    for (const char c : text)
        value = (value ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
    return value ^ (value >> 29);
}

std::vector<std::string> shipped_files() {
    std::vector<std::string> names;
    for (const char* folder : {"models", "examples"})
        for (const auto& entry : fs::directory_iterator(fs::path(ACREWRIGHT_ROOT) / folder)) {
            const std::string end = entry.path().extension();
            if (end == ".rate" || end == ".job" || end == ".season")
                names.push_back(std::string(folder) + "/" + entry.path().filename().string());
        }
    std::sort(names.begin(), names.end());
    return names;
}

using Words = std::multiset<std::pair<std::string, std::string>>; // code and title
Words words_of(const Answer& answer, bool errors) {
    Words out;
    for (const Told& told : answer.told)
        if (told.error == errors)
            out.emplace(told.code, told.title);
    return out;
}
bool adds(const Words& now, const Words& before) {
    return !std::includes(before.begin(), before.end(), now.begin(), now.end());
}

std::string prices(const Answer& answer) {
    std::string text = answer.price;
    for (const std::string& amount : answer.amounts)
        text += " " + amount;
    return text;
}

const Answer& before(Stage& stage, const std::string& base, const std::string& line) {
    static std::map<std::string, Answer> known;
    const auto [at, added] = known.try_emplace(base + " " + line);
    if (added)
        at->second = stage.run(line, true);
    return at->second;
}

// Empty: the error is gone and no other came.
std::string wrong_errors(const Told& told, const Answer& refused, const Answer& now) {
    const Words errors = words_of(now, true);
    const Words known = words_of(refused, true);
    const std::pair<std::string, std::string> mended(told.code, told.title);
    if (errors.count(mended) >= known.count(mended))
        return "the error stays";
    for (const auto& error : errors)
        if (errors.count(error) > known.count(error))
            return "a new error: " + error.first + " " + error.second;
    return "";
}

// What its first edit does: no error that was not there, and no other price without a word.
std::optional<std::string> try_mend(Stage& stage, const std::string& line, const Answer& right,
                                    const Answer& refused) {
    for (const Told& told : refused.told) {
        const auto help = std::find_if(told.helps.begin(), told.helps.end(),
                                       [](const Told::Help& one) { return one.edits; });
        if (!told.error || help == told.helps.end())
            continue;
        if (!stage.edit(*help))
            continue;
        const Answer now = stage.run(line, true);
        const std::string what = told.code + " \"" + help->text + "\": ";
        if (const std::string fault = wrong_errors(told, refused, now); !fault.empty())
            return what + fault;
        if (now.priced() && prices(now) != prices(right) &&
            !adds(words_of(now, false), words_of(right, false)))
            return what + "another price, " + now.price + " for " + right.price;
        return "";
    }
    return std::nullopt;
}

} // namespace

std::vector<Mutant> chosen_mutants(Stages& stages) {
    std::vector<Mutant> all;
    for (const Files& files :
         {Files(stages, "newcomer", {"2027.season", "first.job", "ripping.rate"}),
          Files(stages, "shipped", shipped_files())})
        for (const auto& [file, text] : files.texts())
            if (file != "examples/2027-autumn.season") // as 2027.season, for quotes again
                Maker(files, file, all).make();
    std::map<std::string, std::vector<Mutant>> by_rule;
    for (Mutant& mutant : all)
        by_rule[mutant.rule].push_back(std::move(mutant));
    constexpr std::size_t most = 45; // of a rule
    std::vector<Mutant> chosen;
    for (auto& [rule, mutants] : by_rule) {
        std::sort(mutants.begin(), mutants.end(), [](const Mutant& a, const Mutant& b) {
            return std::pair(hash(a.name), a.name) < std::pair(hash(b.name), b.name);
        });
        mutants.resize(std::min(mutants.size(), most));
        chosen.insert(chosen.end(), mutants.begin(), mutants.end());
    }
    return chosen;
}

Verdict judge(const Mutant& mutant, Stages& stages) {
    Stage& stage = stages[mutant.base];
    std::vector<std::reference_wrapper<const Answer>> right;
    for (const std::string& line : mutant.runs)
        right.emplace_back(before(stage, mutant.base, line));
    std::string text = stage.text(mutant.file);
    text.replace(mutant.begin, mutant.end - mutant.begin, mutant.replacement);
    stage.write(mutant.file, text);
    Verdict verdict;
    verdict.counts = false;
    for (std::size_t i = 0; i < mutant.runs.size() && !verdict.counts; ++i) {
        const Answer& was = right[i];
        if (!was.priced())
            continue; // an option that its job refuses
        const Answer now = stage.run(mutant.runs[i], true);
        verdict.counts = now.code != 0 || !mutant.mends_only;
        if (!verdict.counts)
            break;
        if (now.code != 0) {
            if (words_of(now, true).empty())
                verdict.silent = "no answer and no code";
            else
                verdict.mended = try_mend(stage, mutant.runs[i], was, now);
        } else if (!adds(words_of(now, false), words_of(was, false))) {
            if (prices(now) == prices(was))
                verdict.counts = false;
            else
                verdict.silent = mutant.runs[i] + ": " + was.price + " becomes " + now.price;
        }
    }
    stage.restore();
    return verdict;
}

std::vector<TriedEdit> golden_edits(Stages& stages) {
    std::vector<std::string> files;
    for (const auto& entry :
         fs::directory_iterator(fs::path(ACREWRIGHT_ROOT) / "tests/golden/errors")) {
        const std::string end = entry.path().extension();
        if (end == ".rate" || end == ".job" || end == ".season")
            files.push_back(entry.path().filename());
    }
    std::sort(files.begin(), files.end());
    std::vector<TriedEdit> tried;
    Stage& stage = stages["errors"];
    for (const std::string& file : files) {
        const Answer was = stage.run("check " + file, true);
        for (const Told& told : was.told)
            for (const Told::Help& help : told.helps) {
                if (!help.edits || !stage.edit(help))
                    continue;
                const Answer now = stage.run("check " + file, true);
                stage.restore();
                tried.push_back({"edit of " + file + ": " + help.text,
                                 told.error ? wrong_errors(told, was, now) : ""});
            }
    }
    return tried;
}

} // namespace acre::tests
