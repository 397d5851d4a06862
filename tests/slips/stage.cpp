#include "tests/slips/stage.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include <fcntl.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/shared/console.h"

namespace acre::tests {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;

const fs::path root = ACREWRIGHT_ROOT;

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string text_or_empty(const Json& json, const char* name) {
    return json.contains(name) && json[name].is_string() ? json[name].get<std::string>() : "";
}

Told::Help help_of(const Json& json) {
    Told::Help help;
    help.text = text_or_empty(json, "text");
    const Json& edit = json["edit"];
    help.edits = edit.is_object() && edit["path"].is_string();
    if (!help.edits)
        return help;
    help.path = edit["path"].get<std::string>();
    help.replacement = edit["replacement"].get<std::string>();
    help.begin = edit["start"]["offset"].get<std::size_t>();
    help.end = edit["end"]["offset"].get<std::size_t>();
    return help;
}

Told told_of(const Json& json) {
    Told told;
    told.code = text_or_empty(json, "code");
    told.title = text_or_empty(json, "title");
    told.error = text_or_empty(json, "severity") == "error";
    told.path = text_or_empty(json, "path");
    if (json["start"].is_object())
        told.line = json["start"]["line"].get<std::size_t>();
    told.text = told.title;
    for (const Json& label : json["labels"])
        told.text += "\n" + text_or_empty(label, "text");
    for (const Json& note : json["notes"])
        told.text += "\n" + note.get<std::string>();
    for (const Json& help : json["helps"])
        told.helps.push_back(help_of(help));
    return told;
}

void add_all(const Json& list, std::vector<Told>& told) {
    for (const Json& one : list)
        told.push_back(told_of(one));
}

// An answer whose document has no room for warnings says them in words.
void read_words(const std::string& err, std::vector<Told>& told) {
    for (const bool error : {true, false}) {
        const std::string mark = error ? "\nerror " : "\nwarning ";
        for (std::size_t at = err.find(mark); at != std::string::npos;
             at = err.find(mark, at + 1)) {
            const std::size_t end = std::min(err.find('\n', at + 1), err.size());
            Told one;
            one.error = error;
            one.code = err.substr(at + mark.size(), 4);
            const std::size_t title = at + mark.size() + 6; // L804: it
            one.title = one.text = title < end ? err.substr(title, end - title) : "";
            told.push_back(std::move(one));
        }
    }
}

void read_document(Answer& answer) {
    const Json json = Json::parse(answer.out, nullptr, false);
    if (!json.is_object()) {
        read_words("\n" + answer.err, answer.told);
        return;
    }
    for (const char* list : {"errors", "warnings"})
        if (json.contains(list) && json[list].is_array())
            add_all(json[list], answer.told);
    if (json.contains("files"))
        for (const Json& file : json["files"])
            add_all(file["diagnostics"], answer.told);
    if (!json.contains("warnings") && !json.contains("files"))
        read_words("\n" + answer.err, answer.told);
    if (text_or_empty(json, "schema").starts_with("acrewright.price/")) {
        answer.price = text_or_empty(json["price"], "total_text");
        for (const Json& item : json["price"]["items"])
            answer.amounts.push_back(text_or_empty(item, "amount_text"));
    }
}

// Standard input is a file while this lives.
class Input {
  public:
    explicit Input(const std::string& path) {
        if (path.empty())
            return;
        kept_ = ::dup(0);
        const int file = ::open(path.c_str(), O_RDONLY);
        REQUIRE(file >= 0);
        ::dup2(file, 0);
        ::close(file);
    }
    ~Input() {
        if (kept_ < 0)
            return;
        ::dup2(kept_, 0);
        ::close(kept_);
    }
    Input(const Input&) = delete;
    Input& operator=(const Input&) = delete;

  private:
    int kept_ = -1;
};

} // namespace

const Told* Answer::find(const std::string& wanted, bool error,
                         const std::vector<std::string>& says) const {
    for (const Told& one : told) {
        const bool all = std::all_of(says.begin(), says.end(), [&](const std::string& part) {
            return holds(one.text, part);
        });
        if (one.error == error && (wanted == "?" || one.code == wanted) && all)
            return &one;
    }
    return nullptr;
}

std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words;
    bool open = false;
    char quote = 0;
    for (const char c : line) {
        if (quote != 0 ? c == quote : c == '\'' || c == '"') {
            quote = quote != 0 ? '\0' : c;
            if (!open)
                words.emplace_back();
            open = true;
        } else if (c == ' ' && quote == 0) {
            open = false;
        } else {
            if (!open)
                words.emplace_back();
            open = true;
            words.back() += c;
        }
    }
    return words;
}

Stage::Stage(const std::string& base) {
    const auto options = fs::copy_options::recursive | fs::copy_options::copy_symlinks;
    if (base == "shipped") {
        for (const char* folder : {"models", "examples"})
            fs::copy(root / folder, scratch_.path(folder), options);
        job_ = "examples/01-first-price.job";
        return;
    }
    const fs::path from =
        root / (base == "errors" ? "tests/golden/errors" : "tests/slips/bases/" + base);
    REQUIRE_MESSAGE(fs::is_directory(from), "no base " << base);
    fs::copy(from, scratch_.path("work"), options);
    for (const auto& entry : fs::directory_iterator(scratch_.path("work"))) {
        const fs::path name = entry.path().filename();
        fs::rename(entry.path(), scratch_.path(name));
        if (name.extension() == ".job")
            job_ = name;
    }
}

std::string Stage::text(const std::string& file) const {
    return file_text(scratch_.path(file));
}

void Stage::write(const std::string& file, const std::string& text) {
    if (!changed_.contains(file))
        changed_[file] =
            fs::exists(scratch_.path(file)) ? std::optional(this->text(file)) : std::nullopt;
    scratch_.write(file, text);
}

bool Stage::edit(const Told::Help& help) {
    if (!fs::exists(scratch_.path(help.path)))
        return false;
    std::string whole = text(help.path);
    if (help.begin > help.end || help.end > whole.size())
        return false;
    write(help.path, whole.replace(help.begin, help.end - help.begin, help.replacement));
    return true;
}

void Stage::restore() {
    for (const auto& [file, before] : changed_)
        if (before)
            scratch_.write(file, *before);
        else
            fs::remove(scratch_.path(file));
    changed_.clear();
    fs::remove_all(scratch_.path("quote-book"));
}

Answer Stage::run(const std::string& line, bool json, const std::string& input) {
    std::vector<std::string> words = words_of(line);
    if (json)
        words.emplace_back("--json");
    const fs::path before = fs::current_path();
    fs::current_path(scratch_.path());
    Answer answer;
    {
        const Input given(input.empty() ? "" : scratch_.path(input));
        cli::Console console;
        answer.code = cli::run(words, console);
        answer.out = std::move(console.out);
        answer.err = std::move(console.err);
    }
    fs::current_path(before);
    if (json)
        read_document(answer);
    return answer;
}

Stage& Stages::operator[](const std::string& base) {
    std::unique_ptr<Stage>& stage = stages_[base];
    if (!stage)
        stage = std::make_unique<Stage>(base);
    return *stage;
}

} // namespace acre::tests
