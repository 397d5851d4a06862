#include "tests/slips/slip.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace acre::tests {
namespace {

namespace fs = std::filesystem;

const fs::path folder = fs::path(ACREWRIGHT_ROOT) / "tests/slips";

// Reads the slips of one class, line by line.
class Reader {
  public:
    Reader(const fs::path& path, std::vector<Slip>& slips) : kind_(path.stem()), slips_(slips) {
        std::istringstream lines(file_text(path));
        for (std::string line; std::getline(lines, line);) {
            ++number_;
            if (!line.empty() && !line.starts_with('#'))
                read(line);
        }
    }

  private:
    void read(const std::string& line) {
        CAPTURE(place());
        const std::size_t blank = line.find(' ');
        const std::string key = line.substr(0, blank);
        const std::string rest = blank == std::string::npos ? "" : line.substr(blank + 1);
        if (key == "slip") {
            slips_.emplace_back();
            slips_.back().name = rest;
            slips_.back().kind = kind_;
            slips_.back().place = place();
            file_.clear();
            return;
        }
        REQUIRE_MESSAGE(!slips_.empty(), "a slip begins with its name");
        Slip& slip = slips_.back();
        if (key == "base")
            slip.base = rest;
        else if (key == "in" || key == "write")
            start_file(slip, key, rest);
        else if (key == "-" || key == "+" || key == "|")
            file_line(slip, key, rest);
        else if (key == "run")
            slip.runs.push_back(rest);
        else if (key == "input")
            slip.input = rest;
        else if (key == "then")
            outcome(slip, rest);
        else
            demand(slip, key, rest);
    }

    void start_file(Slip& slip, const std::string& key, const std::string& name) {
        file_ = name;
        open_ = false;
        if (key == "write")
            slip.added[name];
    }

    void file_line(Slip& slip, const std::string& key, const std::string& text) {
        REQUIRE_MESSAGE(!file_.empty(), "name the file first: in FILE, or write FILE");
        if (key == "|") {
            slip.added.at(file_) += text + "\n";
        } else if (key == "-") {
            slip.edits.push_back({file_, text, ""});
            open_ = true;
        } else {
            if (!open_)
                slip.edits.push_back({file_, "", ""});
            std::string& after = slip.edits.back().after;
            after += (after.empty() ? "" : "\n") + text;
            open_ = true;
        }
    }

    void outcome(Slip& slip, const std::string& rest) {
        const std::size_t blank = rest.find(' ');
        const std::string word = rest.substr(0, blank);
        const std::string what = blank == std::string::npos ? "" : rest.substr(blank + 1);
        REQUIRE_MESSAGE((word == "refused" || word == "warned" || word == "reads"),
                        "then " << rest);
        slip.outcome = word == "refused"  ? Outcome::Refused
                       : word == "warned" ? Outcome::Warned
                                          : Outcome::Reads;
        if (slip.outcome == Outcome::Reads) {
            if (!what.empty())
                slip.price = what;
        } else {
            slip.code = what;
        }
    }

    void demand(Slip& slip, const std::string& key, const std::string& rest) {
        if (key == "says")
            slip.says.push_back(rest);
        else if (key == "help")
            slip.helps.push_back(rest);
        else if (key == "shows")
            slip.shows.push_back(rest);
        else if (key == "hides")
            slip.hides.push_back(rest);
        else if (key == "on")
            slip.on = rest;
        else if (key == "or")
            slip.instead = rest;
        else if (key == "mend")
            slip.mended = rest;
        else
            FAIL("no such word: " << key);
    }

    std::string place() const { return kind_ + ".txt:" + std::to_string(number_); }

    std::string kind_;
    std::vector<Slip>& slips_;
    std::size_t number_ = 0;
    std::string file_;
    bool open_ = false; // the next + belongs to the edit before it
};

// What cannot be tried at all is a fault of the record.
void lay_out(const Slip& slip, Stage& stage) {
    for (const auto& [file, text] : slip.added)
        stage.write(file, text);
    for (const Slip::Edit& edit : slip.edits) {
        std::string text = stage.text(edit.file);
        if (edit.before.empty()) {
            stage.write(edit.file, text + edit.after + "\n");
            continue;
        }
        const std::size_t at = text.find(edit.before);
        REQUIRE_MESSAGE(at != std::string::npos,
                        slip.place << ": not in " << edit.file << ": " << edit.before);
        REQUIRE_MESSAGE(text.find(edit.before, at + 1) == std::string::npos,
                        slip.place << ": more than once in " << edit.file << ": " << edit.before);
        stage.write(edit.file, text.replace(at, edit.before.size(), edit.after));
    }
}

std::string line_of(const Stage& stage, const Told& told) {
    if (told.path.empty() || told.line == 0)
        return "";
    std::istringstream lines(stage.text(told.path));
    std::string line;
    for (std::size_t i = 0; i < told.line; ++i)
        std::getline(lines, line);
    return line;
}

std::string short_of(const Answer& answer) {
    std::string text = "exit " + std::to_string(answer.code);
    if (!answer.price.empty())
        text += ", price " + answer.price;
    for (const Told& told : answer.told)
        text += "; " + told.code + " " + told.title;
    return text;
}

std::string wrong_helps(const Slip& slip, const Told& told) {
    for (const std::string& part : slip.helps)
        if (std::none_of(told.helps.begin(), told.helps.end(), [&](const Told::Help& help) {
                return help.text.find(part) != std::string::npos;
            }))
            return "no help says: " + part;
    return "";
}

std::string wrong_page(const Slip& slip, const Answer& page) {
    const std::string text = page.out + page.err;
    if (slip.outcome != Outcome::Reads && slip.code != "?" &&
        text.find((slip.outcome == Outcome::Refused ? "error " : "warning ") + slip.code) ==
            std::string::npos)
        return "the page does not show " + slip.code;
    for (const std::string& part : slip.shows)
        if (text.find(part) == std::string::npos)
            return "the page does not show: " + part;
    for (const std::string& part : slip.hides)
        if (text.find(part) != std::string::npos)
            return "the page shows: " + part;
    return "";
}

// Of one command line. `told`: what it was caught by.
std::string wrong(const Slip& slip, Stage& stage, const std::string& line, const Told*& told,
                  Answer& answer) {
    answer = stage.run(line, true, slip.input);
    told = nullptr;
    if (slip.outcome == Outcome::Reads) {
        if (answer.code != 0 || (slip.price && answer.price != *slip.price))
            return short_of(answer);
    } else {
        const bool error = slip.outcome == Outcome::Refused;
        if (slip.instead && answer.code == 0 &&
            (slip.instead->empty() || answer.price == *slip.instead))
            return "";
        told = answer.find(slip.code, error, slip.says);
        if (told == nullptr || (answer.code != 0) != error)
            return short_of(answer);
        if (!slip.on.empty() && line_of(stage, *told).find(slip.on) == std::string::npos)
            return "it points at: " + line_of(stage, *told);
        if (std::string fault = wrong_helps(slip, *told); !fault.empty())
            return fault;
    }
    return wrong_page(slip, stage.run(line, false, slip.input));
}

// The first edit among its helps leads back to the price that is right.
std::string wrong_mend(const Slip& slip, Stage& stage, const Told& told) {
    const auto help = std::find_if(told.helps.begin(), told.helps.end(),
                                   [](const Told::Help& one) { return one.edits; });
    if (help == told.helps.end() || !stage.edit(*help))
        return "no help has an edit";
    const Answer mended = stage.run("price " + stage.job(), true);
    return mended.priced() && mended.price == *slip.mended ? "" : "mended: " + short_of(mended);
}

} // namespace

std::vector<Slip> all_slips() {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder)) {
        const std::string name = entry.path().filename();
        if (name.size() > 3 && name[0] >= '0' && name[0] <= '9' && name[2] == '-')
            files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    std::vector<Slip> slips;
    for (const fs::path& file : files)
        Reader(file, slips);
    return slips;
}

std::string judge(const Slip& slip, Stages& stages) {
    Stage& stage = stages[slip.base];
    lay_out(slip, stage);
    std::string fault;
    const std::vector<std::string> runs =
        slip.runs.empty() ? std::vector<std::string>{"price " + stage.job()} : slip.runs;
    for (const std::string& line : runs) {
        const Told* told = nullptr;
        Answer answer;
        fault = wrong(slip, stage, line, told, answer);
        if (fault.empty() && slip.mended && told != nullptr && &line == &runs.front()) {
            fault = wrong_mend(slip, stage, *told);
            stage.restore();
            lay_out(slip, stage);
        }
        if (!fault.empty()) {
            fault = "acrewright " + line + ": " + fault;
            break;
        }
    }
    stage.restore();
    return fault;
}

std::vector<std::string> not_yet() {
    std::istringstream lines(file_text(folder / "not_yet.txt"));
    std::vector<std::string> names;
    for (std::string line; std::getline(lines, line);)
        if (!line.empty() && !line.starts_with('#'))
            names.push_back(line);
    return names;
}

} // namespace acre::tests
