// Feeds what the fuzzer found to the same functions, without the fuzzer: every file of
// corpus/TARGET and failures/TARGET, and the project's own texts as seeds.
//
//   replay                     all of it
//   replay TARGET              all of this target
//   replay TARGET FILE...      these files
//   replay --list              the names of the targets
//   replay --seeds FOLDER      writes the seeds to FOLDER/TARGET/, for the fuzzer to start from
#include <algorithm>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include <unistd.h>

#include "tests/fuzz/scratch.h"
#include "tests/fuzz/small_files.h"
#include "tests/fuzz/target.h"

namespace fs = std::filesystem;

namespace acre::fuzz {
namespace {

Target* first = nullptr;
const char* at_work = ""; // what is being run, for the last words of the program

struct Input {
    std::string target, name, text;
};

void last_words(int signal) {
    for (const char* text : {"\nended at ", at_work, "\n"}) {
        const ssize_t written = ::write(STDERR_FILENO, text, std::strlen(text));
        static_cast<void>(written);
    }
    std::signal(signal, SIG_DFL);
    std::raise(signal);
}

std::string text_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<fs::path> files_below(const fs::path& folder) {
    std::vector<fs::path> files;
    if (fs::exists(folder))
        for (const auto& entry : fs::recursive_directory_iterator(folder))
            if (entry.is_regular_file())
                files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

// The words of `acrewright ...` as a shell would part them, one a line.
std::string words_of(std::string_view command) {
    std::string words;
    char quote = 0;
    for (const char c : command)
        if (quote == 0 && (c == '\'' || c == '"'))
            quote = c;
        else if (c == quote)
            quote = 0;
        else
            words += quote == 0 && c == ' ' ? '\n' : c;
    return words + "\n";
}

void command_seeds(const fs::path& file, std::vector<Input>& seeds) {
    std::string_view name = "acrewright ";
    const std::string text = text_of(file);
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        const std::string line = text.substr(at, end - at);
        at = end + 1;
        if (line.starts_with(name))
            seeds.push_back({"command_line",
                             file.parent_path().filename().string() + "-" + std::to_string(count++),
                             words_of(line.substr(name.size()))});
    }
}

// A record of the small job, as the program itself writes it: those of the examples are too large
// for a fuzzer.
std::string small_record() {
    std::map<std::string, std::string> files = small_files();
    files["f.job"] = small_job();
    set_out(files);
    cli::Console console;
    HOLDS_FOR(hold_command({"quote", "f.job", "--book", "book", "--date", "2027-03-14", "--json"},
                           console) == 0,
              console.err);
    return console.out;
}

// The project's own texts, each for the targets that read its kind.
std::vector<Input> seeds() {
    const fs::path root = ACREWRIGHT_ROOT;
    std::vector<Input> list;
    for (const char* folder :
         {"models", "examples", "tests/golden", "tests/published", "tests/book"})
        for (const fs::path& file : files_below(root / folder)) {
            const std::string ending = file.extension().string();
            const std::string name = file.filename().string();
            if (ending == ".rate" || ending == ".season" || ending == ".job" || ending == ".firm")
                list.push_back({"notation", name, text_of(file)});
            if (ending == ".job")
                list.push_back({"job", name, text_of(file)});
            if (ending == ".season")
                list.push_back({"job", name, small_job() + "---\n" + text_of(file)});
            if (ending == ".geojson")
                list.push_back({"boundary", name, "\x08" + text_of(file)});
            if (ending == ".csv" && file.parent_path().filename() == "logs")
                list.push_back({"job_log", name, text_of(file)});
            if (ending == ".json" && (file.parent_path().filename() == "quote-book" ||
                                      file.parent_path().filename() == "version-1"))
                list.push_back({"record", name, text_of(file)});
            if (ending == ".wording")
                list.push_back({"wording", name, text_of(file)});
            if (name == "cmd")
                command_seeds(file, list);
        }
    list.push_back({"job", "small",
                    small_job() + "---\n" + small_files().at("2027.season") +
                        "---\nload=52 %\n---\nset north.area = 61 ac\n"});
    list.push_back({"job", "firm",
                    small_job() +
                        "---\nseason \"2027\"\nfirm \"kestrel\"\nset load = 60 %\n---\n---\n---\n"
                        "firm \"Kestrel\"\nmoney AUD \"A$\" to $0.05\n: address = \"18 Road\"\n"});
    for (const auto& [name, text] : small_files())
        list.push_back({"notation", name, text});
    for (const char* sheet :
         {"Givens\nname,what,value,unit,your reason\nnorth.area,net acres,61.5,ac,\"walked, "
          "twice\"\n"
          "method,,crossed,,\nload,,\"$1,055\",%,\"=HYPERLINK(\"\"x\"\")\"\n",
          "name,value,your reason\r\ncrawler.fuel_price,$4.95,\r\nload,-0,\r\nload,7,\r\n",
          "value,name\n1e308,load\n,moves\nnan,moves\n"})
        list.push_back({"saved_givens", "sheet-" + std::to_string(list.size()), sheet});
    list.push_back({"record", "small", small_record()});
    for (const char* word :
         {"7 ft", "$4.35/gal", "1,320 ft..2,640 ft by 100 ft", "depth=4 ft,5 ft,6 ft",
          "north.soil=fine,coarse", "2027-03-14", "lb.ft/(s^2.ac)", "18 %",
          "load=20 %..60 % by 10 %", "=1+2", "method = full_field"})
        list.push_back({"words", std::string("word-") + std::to_string(list.size()), word});
    for (const char* body :
         {R"({"id":1,"method":"textDocument/codeLens","params":{"textDocument":{"uri":)"
          R"("file:///nowhere/a.rate"}}})",
          R"({"method":"textDocument/didChange","params":{"textDocument":{"uri":)"
          R"("file:///nowhere/a.rate"},"contentChanges":[{"range":{"start":{"line":1,)"
          R"("character":6},"end":{"line":1,"character":7}},"text":"x"}]}})",
          R"({"id":2,"method":"textDocument/completion","params":{"textDocument":{"uri":)"
          R"("file:///nowhere/a.rate"},"position":{"line":2,"character":12}}})",
          R"({"id":[{}],"method":"shutdown"})"})
        list.push_back({"editor", "message-" + std::to_string(list.size()),
                        "Content-Length: " + std::to_string(std::string_view(body).size()) +
                            "\r\n\r\n" + body + "Content-Length: 9\n\n{}"});
    std::string counting; // dice that throw all they can
    for (int i = 0; i < 512; ++i)
        counting += static_cast<char>(i * 37 + i / 7);
    for (const char* target :
         {"syntax_tree", "plans", "models", "values", "layout", "season", "bridge", "variance"})
        for (std::size_t size : {16U, 128U, 512U})
            list.push_back({target, "dice-" + std::to_string(size), counting.substr(0, size)});
    for (const char* target : {"values", "layout", "season", "bridge", "variance"})
        for (std::size_t from = 1; from < 256; from += 17)
            list.push_back({target, "from-" + std::to_string(from), counting.substr(from)});
    return list;
}

std::vector<Input> kept() {
    std::vector<Input> list;
    for (const char* kind : {"corpus", "failures"})
        for (const Target* target = first; target != nullptr; target = target->next)
            for (const fs::path& file :
                 files_below(fs::path(ACREWRIGHT_ROOT) / "tests/fuzz" / kind / target->name))
                list.push_back({target->name, file.string(), text_of(file)});
    return list;
}

void write_seeds(const fs::path& folder) {
    constexpr std::size_t largest = 64 * 1024; // past it a fuzzer only gets slow
    for (const Input& seed : seeds()) {
        if (seed.text.size() > largest)
            continue;
        fs::create_directories(folder / seed.target);
        std::ofstream(folder / seed.target / seed.name, std::ios::binary) << seed.text;
    }
}

const Target* find(std::string_view name) {
    const Target* target = first;
    while (target != nullptr && target->name != name)
        target = target->next;
    return target;
}

int run_all(const std::vector<Input>& inputs) {
    std::size_t ran = 0;
    for (const Input& input : inputs) {
        const Target* target = find(input.target);
        if (target == nullptr) {
            std::fprintf(stderr, "there is no target %s\n", input.target.c_str());
            return 1;
        }
        at_work = input.name.c_str();
        target->run(input.text);
        ++ran;
    }
    std::printf("%zu inputs\n", ran);
    return ran == 0 ? 1 : 0;
}

} // namespace

void enter(Target& target) {
    target.next = first;
    first = &target;
}

} // namespace acre::fuzz

int main(int count, char** words) {
    using namespace acre::fuzz;
    const std::vector<std::string> arguments(words + 1, words + count);
    for (const int signal : {SIGABRT, SIGSEGV, SIGFPE, SIGBUS})
        std::signal(signal, last_words);
    if (!arguments.empty() && arguments[0] == "--list") {
        for (const Target* target = first; target != nullptr; target = target->next)
            std::puts(target->name);
        return 0;
    }
    if (arguments.size() == 2 && arguments[0] == "--seeds") {
        write_seeds(arguments[1]);
        return 0;
    }
    std::vector<Input> inputs;
    if (arguments.size() >= 2) {
        for (std::size_t i = 1; i < arguments.size(); ++i)
            inputs.push_back({arguments[0], arguments[i], text_of(arguments[i])});
    } else {
        inputs = kept();
        for (Input& seed : seeds())
            inputs.push_back(std::move(seed));
        if (!arguments.empty())
            std::erase_if(inputs, [&](const Input& input) { return input.target != arguments[0]; });
    }
    return run_all(inputs);
}
