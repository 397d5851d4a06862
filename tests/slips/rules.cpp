#include "tests/slips/rules.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <optional>
#include <regex>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "tests/slips/unit_swaps.h"

namespace acre::tests {
namespace {

// Makes the slips of one file.
class Maker {
  public:
    Maker(const WholeFiles& files, const std::string& file, std::vector<Mutant>& out)
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
            "(" + number_pattern + ")( %)(?![/A-Za-z])",
            [&](const std::smatch& m) { add("drop-percent", at(m, 2), after(m, 2), ""); });
    }

    // Of a number_pattern in a formula or a clause; words that are no units follow numbers too.
    static bool is_word(const std::string& word) {
        static const std::set<std::string> words = {
            "then",   "otherwise", "and", "or", "within", "swing",  "because", "over", "with",
            "covers", "when",      "is",  "by", "to",     "native", "costs",   "may"};
        return words.contains(word);
    }
    void each_unit(const auto& function) const {
        each(R"([=.(*+,<>-] ?(?:\.\. )?()" + number_pattern +
                 R"()( )([A-Za-z][A-Za-z0-9^/.()%$]*))",
             [&](const std::smatch& m) {
                 if (!is_word(m[3]))
                     function(m, 1, 2, 3);
             });
        each(R"(\$()" + number_pattern + R"()(/)([A-Za-z]+))",
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
        const std::string steps = "(?:given|set|cost)[^\n=]*= |overhead +|reserve +|markup "
                                  "+|margin +|at least +|round "
                                  "up to +|round to +";
        each("(" + steps + ")(\\$?" + number_pattern + ")([ /][^ \n]+)?",
             [&](const std::smatch& m) {
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
            "season",    "model",  "date",   "field",     "option",  "heading", "reserve",
            "table",     "define", "native", "correlate", "hold",    "above",   "below",
            "error",     "known",  "source", "ours",      "unit",    "may",     "be",
            "negative",  "show",   "count",  "fleet"};
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
        each(R"((?:given|set|cost)[^\n=]*= \$()" + number_pattern + R"()(/[A-Za-z]+))",
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
            "\\$" + number_pattern + "(/)[a-z]+(?![a-z./^])",
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

    // A factor left out of a formula. Of a plain number_pattern it is a plain change: only its
    // mends count.
    void drop_factor() {
        each(R"([=(+-] ([a-z_][a-z_0-9.]* \* ))",
             [&](const std::smatch& m) {
                 const std::size_t count = out_.size();
                 add("drop-factor", at(m, 1), after(m, 1), "");
                 if (out_.size() > count)
                     out_.back().mends_only = true;
             });
    }

    const WholeFiles& files_;
    const std::string& file_;
    const std::string& text_;
    const std::string plain_;
    std::vector<Mutant>& out_;
    std::map<std::string, int> labels_;
};

} // namespace

void make_mutants(const WholeFiles& files, const std::string& file, std::vector<Mutant>& out) {
    Maker(files, file, out).make();
}

} // namespace acre::tests
