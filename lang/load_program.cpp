#include "lang/load_program.h"

#include <algorithm>
#include <string>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "lang/diag/suggest.h"
#include "lang/earlier/forms.h"
#include "lang/kept_trees.h"
#include "lang/season_of_job.h"
#include "lang/units/number_text.h"

namespace acre::lang {
namespace {

class Reader {
  public:
    Reader(Loader& loader, SourceMap& sources, Diagnostics& diagnostics)
        : loader_(loader),
          sources_(sources),
          diagnostics_(diagnostics) {}

    std::uint32_t parse_text(std::string name, std::string text, FileKind kind) {
        bytes_ += text.size();
        const WordsOfVersion words(program.notation);
        const bool all_of_it = program.modules.size() == 0 || program.every_function;
        const auto file = static_cast<FileId>(sources_.size());
        const std::size_t errors = diagnostics_.error_count();
        program.modules.push_back(tree_of(all_of_it ? nullptr : loader_.kept_trees(), sources_,
                                          std::move(name), std::move(text), kind, program.notation,
                                          diagnostics_));
        if (all_of_it && program.notation == current_notation &&
            diagnostics_.error_count() == errors)
            report_old_forms(sources_, file, kind, diagnostics_);
        return static_cast<std::uint32_t>(program.modules.size() - 1);
    }

    // The module that `path` names, read now or before; none when it cannot be had.
    std::uint32_t load(ReferenceKind kind, const ast::Text& path) {
        const std::string from = sources_.file(path.span.file).name();
        const std::string asked =
            fmt::format("{}\n{}\n{}", static_cast<int>(kind), from, path.text);
        if (const auto answer = by_reference_.find(asked); answer != by_reference_.end())
            return answer->second; // a failure was told the first time
        if (full_)
            return none;
        return by_reference_[asked] = load_new(kind, path, from);
    }

    // Everything that `model` uses, near before far.
    void load_uses(std::uint32_t model) {
        std::vector<std::uint32_t> depth(program.modules.size(), 0);
        std::vector<std::uint32_t> queue{model};
        program.uses.resize(program.modules.size());
        for (std::size_t next = 0; next < queue.size(); ++next) {
            const std::uint32_t user = queue[next];
            for (const ast::Text& path : paths_of_uses(user)) {
                if (program.uses[user].size() == max_uses)
                    too_much(fmt::format("a model has more than {} lines of `use`",
                                         number_text(max_uses)),
                             path);
                const std::size_t before = program.modules.size();
                const std::uint32_t used =
                    depth[user] < max_use_depth ? load(ReferenceKind::Model, path) : too_deep(path);
                program.uses[user].push_back(used);
                if (program.modules.size() == before)
                    continue;
                program.uses.resize(program.modules.size());
                depth.resize(program.modules.size(), depth[user] + 1);
                queue.push_back(used);
            }
        }
    }

    bool full() const { return full_; }
    void know(std::uint32_t module) {
        by_name_.emplace(sources_.file(program.modules[module].file).name(), module);
    }

    Program program;

  private:
    std::uint32_t load_new(ReferenceKind kind, const ast::Text& path, const std::string& from) {
        Outcome<Loaded> outcome = loader_.load(kind, path.text, from);
        if (!outcome) {
            for (Diagnostic failed : outcome.said.diagnostics.all()) {
                failed.primary.span = path.span;
                add_near(failed, kind, path, from);
                diagnostics_.add(std::move(failed));
            }
            return none;
        }
        Loaded& loaded = *outcome;
        if (!loaded.hidden.empty())
            passed_over(path, loaded);
        if (const auto known = by_name_.find(loaded.name); known != by_name_.end())
            return known->second;
        if (program.modules.size() >= max_files)
            return too_much(fmt::format("more than {} files are used", max_files), path);
        if (loaded.text.size() >
            max_program_bytes - std::min<std::size_t>(bytes_, max_program_bytes))
            return too_much(fmt::format("the files of the job come to more than {} bytes",
                                        number_text(max_program_bytes)),
                            path);
        const std::string name = loaded.name;
        const std::uint32_t module = parse_text(name, std::move(loaded.text), kind_of(kind));
        by_name_.emplace(name, module);
        return module;
    }

    static FileKind kind_of(ReferenceKind kind) {
        return kind == ReferenceKind::Season   ? FileKind::Season
               : kind == ReferenceKind::Values ? FileKind::Values
               : kind == ReferenceKind::Firm   ? FileKind::Firm
                                               : FileKind::Model;
    }

    // Another season is other prices: it is an edit only where its letters are in another order.
    void add_near(Diagnostic& d, ReferenceKind kind, const ast::Text& path,
                  const std::string& from) {
        if (d.code != Code::F701 || kind == ReferenceKind::Boundary || diagnostics_.full())
            return;
        const std::vector<std::string> names = loader_.references(kind, from);
        const std::vector<std::string_view> near =
            near_names(path.text, std::vector<std::string_view>(names.begin(), names.end()), 2);
        for (const std::string_view name : near) {
            std::optional<Edit> edit = near_edit(path.text, near, name, path.span);
            if (edit && kind != ReferenceKind::Model && !same_letters(path.text, name))
                edit.reset();
            if (edit)
                edit->replacement = fmt::format("\"{}\"", name);
            d.helps.push_back({fmt::format("did you mean \"{}\"?", name), std::move(edit)});
        }
    }

    std::vector<ast::Text> paths_of_uses(std::uint32_t module) const {
        std::vector<ast::Text> out;
        for (const ast::Statement& statement : program.modules[module].statements)
            if (const auto* use = std::get_if<ast::Use>(&statement.node))
                out.push_back(use->path);
        return out;
    }

    // Two files of one name, and only one is read.
    void passed_over(const ast::Text& path, const Loaded& loaded) {
        Diagnostic d{Code::L814,
                     fmt::format("\"{}\" is {}; another file of that name is passed over",
                                 path.text, loaded.name),
                     {path.span, "read from " + loaded.name},
                     {},
                     {},
                     {}};
        for (const std::string& hidden : loaded.hidden)
            d.notes.push_back(fmt::format("not read: {}", hidden));
        d.notes.emplace_back("the two differ, so the price may not be the one you expect");
        d.helps.push_back({"delete or rename the one you do not mean", std::nullopt});
        diagnostics_.add(std::move(d));
    }

    // Nothing more is loaded.
    std::uint32_t too_much(std::string title, const ast::Text& path) {
        diagnostics_.add({Code::N214, std::move(title), {path.span, "one too many"}, {}, {}, {}});
        full_ = true;
        return none;
    }

    std::uint32_t too_deep(const ast::Text& path) {
        diagnostics_.add({Code::N214,
                          fmt::format("models are used more than {} deep", max_use_depth),
                          {path.span, "one too deep"},
                          {},
                          {},
                          {}});
        return none;
    }

    Loader& loader_;
    SourceMap& sources_;
    Diagnostics& diagnostics_;
    std::size_t bytes_ = 0;
    bool full_ = false;
    std::unordered_map<std::string, std::uint32_t> by_name_;
    std::unordered_map<std::string, std::uint32_t>
        by_reference_; // by kind, file that asks, and words
};

// The first path of its kind that a job names; the second too, if there is one.
template <class Reference>
std::pair<const ast::Text*, const ast::Text*> paths(const ast::Module& job) {
    std::pair<const ast::Text*, const ast::Text*> out{nullptr, nullptr};
    for (const ast::Statement& statement : job.statements)
        if (const auto* reference = std::get_if<Reference>(&statement.node))
            (out.first == nullptr ? out.first : out.second) = &reference->path;
    return out;
}

// Whether a line that begins with the word could not be read: that is told already.
bool lost_to_syntax(const SourceMap& sources, const Diagnostics& diagnostics, FileId file,
                    std::string_view word) {
    const std::vector<Diagnostic>& all = diagnostics.all();
    return std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) {
        if (d.primary.span.file != file || name_of(d.code).front() != 'S')
            return false;
        const SourceFile& source = sources.file(file);
        return source.line(source.position(d.primary.span.begin).line).starts_with(word);
    });
}

void load_job(Reader& reader, Loader& loader, const SourceMap& sources, Diagnostics& diagnostics) {
    Program& program = reader.program;
    const ast::Module& job = program.modules[program.job];
    const auto [first, second] = paths<ast::ModelReference>(job);
    if (first == nullptr && !lost_to_syntax(sources, diagnostics, job.file, "model"))
        diagnostics.add({Code::I608,
                         "the job names no model",
                         {job.title.span, {}},
                         {},
                         {},
                         {{"add a line like  model \"deep-rip\"", std::nullopt}}});
    if (second != nullptr)
        diagnostics.add({Code::I608,
                         "a job takes one model; here are two",
                         {second->span, "the second"},
                         {{first->span, "the first"}},
                         {},
                         {{"keep one of the two", std::nullopt}}});
    const ast::Text* season =
        paths<ast::SeasonReference>(job).first; // a second one is a slip that the parser tells
    const std::optional<ast::Text> season_path =
        season != nullptr ? std::optional(*season) : std::nullopt;
    const std::optional<ast::Text> model = first != nullptr ? std::optional(*first) : std::nullopt;
    std::vector<ast::Text> values;
    for (const ast::Statement& statement : job.statements)
        if (const auto* reference = std::get_if<ast::ValuesReference>(&statement.node))
            values.push_back(reference->path);
    if (season_path && program.season == none) {
        program.season = reader.load(ReferenceKind::Season, *season_path);
        if (program.season != none)
            judge_season(program, *season_path, loader, sources, diagnostics);
    } else if (!season_path && program.season == none) {
        judge_no_season(program.modules[program.job], loader, sources, diagnostics);
    }
    for (const ast::Text& path : values)
        if (const std::uint32_t module = reader.load(ReferenceKind::Values, path); module != none)
            program.values.push_back(module);
    if (model)
        program.model = reader.load(ReferenceKind::Model, *model);
    if (program.model != none && program.modules[program.model].kind == FileKind::Library) {
        diagnostics.add({Code::F706,
                         fmt::format("a job needs a model, and \"{}\" is a library", model->text),
                         {model->span, "a library"},
                         {},
                         {},
                         {{"name a model that uses this library", std::nullopt}}});
        program.model = none;
    }
}

// The firm that the season, the job or its model names: one for all of them.
void load_firm(Reader& reader, Diagnostics& diagnostics) {
    std::optional<ast::Text> first;
    std::uint32_t firm = none;
    for (const std::uint32_t module :
         {reader.program.season, reader.program.job, reader.program.model}) {
        const ast::Text* there =
            module == none ? nullptr
                           : paths<ast::FirmReference>(reader.program.modules[module]).first;
        if (there == nullptr)
            continue;
        const ast::Text path = *there;
        const std::uint32_t loaded = reader.load(ReferenceKind::Firm, path);
        if (!first) {
            first = path;
            firm = loaded;
        } else if (loaded != firm && loaded != none && firm != none) {
            diagnostics.add(
                {Code::I612,
                 fmt::format(R"(the job is of two firms, "{}" and "{}")", first->text, path.text),
                 {path.span, "the second"},
                 {{first->span, "the first"}},
                 {},
                 {{"keep one of the two; the season is the place for it", std::nullopt}}});
        }
    }
    reader.program.firm = firm;
}

// NAME and VALUE as one statement: whatever they hold stays on its line.
std::string set_statement(std::string_view name, std::string_view value) {
    std::string line = fmt::format("set {} = {}", name, value);
    std::replace_if(
        line.begin(), line.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
    return line + "\n";
}

// One a line.
std::string set_statements(const Request& request) {
    std::string text;
    for (const auto& [name, value] : request.sets)
        text += set_statement(name, value);
    return text;
}

} // namespace

std::optional<Program> load_program(const Request& request, Loader& loader, SourceMap& sources,
                                    Diagnostics& diagnostics) {
    Reader reader(loader, sources, diagnostics);
    Program& program = reader.program;
    program.option = request.option;
    program.every_function = request.every_function;
    program.withheld = request.withheld;
    program.as_modeled = request.as_modeled;
    program.notation = request.notation;
    const std::uint32_t first = reader.parse_text(request.name, request.text, request.kind);
    reader.know(first);
    if (request.season)
        program.season =
            reader.parse_text(request.season->name, request.season->text, FileKind::Season);
    if (request.kind == FileKind::Job) {
        program.job = first;
        load_job(reader, loader, sources, diagnostics);
    } else if (request.kind == FileKind::Season || request.kind == FileKind::Values ||
               request.kind == FileKind::Firm) {
        return std::nullopt; // read, and that is all there is to say about such a file by itself
    } else {
        program.model = first;
    }
    load_firm(reader, diagnostics);
    if (!request.sets.empty())
        program.command_line =
            reader.parse_text("command line", set_statements(request), FileKind::CommandLine);
    if (request.field_sets && !request.field_sets->empty())
        program.field =
            reader.parse_text("field layout", *request.field_sets, FileKind::CommandLine);
    if (!request.tried.empty())
        program.tried = reader.parse_text("command line", set_statement("formula", request.tried),
                                          FileKind::CommandLine);
    if (program.model == none)
        return std::nullopt;
    reader.load_uses(program.model);
    if (reader.full()) // reported; what is there is not whole
        return std::nullopt;
    return std::move(program);
}

} // namespace acre::lang
