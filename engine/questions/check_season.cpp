#include "engine/questions/check_season.h"

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "engine/questions/findings.h"
#include "lang/check/check.h"
#include "lang/check/resolve.h"
#include "lang/check/resolve/season_names.h"
#include "lang/diag/suggest.h"
#include "lang/load_program.h"
#include "lang/syntax/parse.h"

namespace acre::engine {
namespace {

using lang::Code;

std::uint32_t line_of(const lang::SourceMap& sources, lang::Span span) {
    return sources.file(span.file).position(span.begin).line;
}

class SeasonCheck {
  public:
    SeasonCheck(const lang::Request& season, lang::Loader& loader)
        : season_(season),
          loader_(loader) {}

    CheckAnswer run() {
        const auto sources = std::make_shared<lang::SourceMap>();
        lang::Said alone{{}, sources};
        const lang::FileId file = sources->add(season_.name, season_.text);
        const lang::ast::Module text =
            lang::parse(*sources, file, lang::FileKind::Season, alone.diagnostics);
        findings_.add(alone);
        const bool all = try_models(sources);
        for (const auto& [model, names] : unpriced_)
            if (!used_.contains(model))
                names_.add(names);
        tell_computed(text);
        if (models_ > 0 && all) // what these do not know, one of the others might
            findings_.add(unknown_names(text, sources));
        CheckAnswer answer;
        answer.models = models_;
        answer.said = findings_.take();
        return answer;
    }

  private:
    // Whether it was tried with all that there are.
    bool try_models(const std::shared_ptr<const lang::SourceMap>& sources) {
        for (const std::string& model :
             loader_.references(lang::ReferenceKind::Model, season_.name)) {
            if (bytes_ > max_season_check_bytes) {
                findings_.add(too_much(sources));
                return false;
            }
            try_model(model);
        }
        return true;
    }

    void try_model(const std::string& reference) {
        lang::Outcome<lang::Loaded> loaded =
            loader_.load(lang::ReferenceKind::Model, reference, season_.name);
        if (!loaded)
            return; // of the model, not of the season
        lang::Request request;
        request.name = loaded->name;
        request.text = std::move(loaded->text);
        request.kind = lang::FileKind::Model;
        request.every_function = false;
        request.season = lang::Loaded{season_.name, season_.text};
        const auto sources = std::make_shared<lang::SourceMap>();
        lang::Diagnostics diagnostics;
        const std::optional<lang::Program> program =
            lang::load_program(request, loader_, *sources, diagnostics);
        for (std::size_t i = 0; i < sources->size(); ++i)
            bytes_ += sources->file(static_cast<lang::FileId>(i)).text().size();
        if (!program)
            return;
        lang::Sheet sheet = lang::resolve(*program, *sources, diagnostics);
        const lang::FileId file = program->modules[program->season].file;
        note_names(sheet, file, sheet.prices.empty() ? unpriced_[request.name] : names_);
        if (!sheet.prices.empty())
            for (const lang::ast::Module& module : program->modules)
                used_.insert(sources->file(module.file).name());
        lang::check(std::move(sheet), *sources, diagnostics);
        const std::string seen_from = fmt::format("seen from the model {}", request.name);
        findings_.add(of_the_season(diagnostics, sources, file, seen_from), seen_from);
        ++models_;
    }

    static lang::Said too_much(const std::shared_ptr<const lang::SourceMap>& sources) {
        lang::Said said{{}, sources};
        said.diagnostics.add(
            {Code::Q004,
             "the models that can be found come to more than 64 MiB of text with the season, and "
             "it was not tried with all of them",
             {},
             {},
             {},
             {{"`price` of a job tries the season with the model of the job alone", {}}}});
        return said;
    }

    struct Names {
        std::set<std::string> givens;  // that a model lets a season set
        std::set<std::uint32_t> known; // statements that set one of them, by where they begin
        void add(const Names& other) {
            givens.insert(other.givens.begin(), other.givens.end());
            known.insert(other.known.begin(), other.known.end());
        }
    };

    static void note_names(const lang::Sheet& sheet, lang::FileId file, Names& names) {
        for (const lang::Given& given : sheet.givens) {
            const lang::Line& line = sheet.lines[given.line];
            if (line.entry == lang::none)
                names.givens.insert(line.name);
            for (const lang::Setting& setting : given.settings)
                if (setting.layer == lang::Layer::Season && setting.span.file == file)
                    names.known.insert(setting.span.begin);
            for (const lang::Setting& setting : given.of_other_days)
                names.known.insert(setting.span.begin);
        }
    }

    // What is wrong in the season's own text; names are judged when every model was seen.
    lang::Said of_the_season(const lang::Diagnostics& diagnostics,
                             const std::shared_ptr<const lang::SourceMap>& sources,
                             lang::FileId file, const std::string& seen_from) {
        lang::Said said{{}, sources};
        for (const lang::Diagnostic& diagnostic : diagnostics.all()) {
            if (diagnostic.primary.span.file != file || diagnostic.code == Code::L807)
                continue;
            if (diagnostic.code == Code::I606) {
                computed_.push_back({diagnostic, sources, seen_from});
                continue;
            }
            told_.insert(line_of(*sources, diagnostic.primary.span));
            said.diagnostics.add(diagnostic);
        }
        return said;
    }

    // A name that one model computes may be a given of another: the season is for that one then.
    void tell_computed(const lang::ast::Module& text) {
        std::set<std::uint32_t> given; // names, by where they begin
        for (const lang::ast::Statement& statement : text.statements)
            if (const auto* set = std::get_if<lang::ast::Set>(&statement.node);
                set != nullptr && names_.known.contains(statement.span.begin))
                given.insert(set->name.span.begin);
        for (const Computed& one : computed_) {
            if (given.contains(one.diagnostic.primary.span.begin))
                continue;
            told_.insert(line_of(*one.sources, one.diagnostic.primary.span));
            lang::Said said{{}, one.sources};
            said.diagnostics.add(one.diagnostic);
            findings_.add(said, one.seen_from);
        }
    }

    lang::Said unknown_names(const lang::ast::Module& text,
                             const std::shared_ptr<const lang::SourceMap>& sources) const {
        lang::Said said{{}, sources};
        const std::vector<std::string_view> givens(names_.givens.begin(), names_.givens.end());
        for (const lang::ast::Statement& statement : text.statements) {
            const auto* set = std::get_if<lang::ast::Set>(&statement.node);
            if (set == nullptr || names_.known.contains(statement.span.begin) ||
                told_.contains(line_of(*sources, set->name.span)))
                continue;
            lang::Diagnostic d{Code::L807,
                               fmt::format("no model has a given named `{}`", set->name.text),
                               {set->name.span, "sets nothing"},
                               {},
                               {},
                               {}};
            std::vector<std::string_view> found = lang::near_names(set->name.text, givens);
            if (found.empty())
                found = lang::resolving::longer_or_shorter(set->name.text, givens);
            for (const std::string_view near : found)
                d.helps.push_back({fmt::format("did you mean `{}`?", near),
                                   lang::Edit{set->name.span, std::string(near)}});
            said.diagnostics.add(std::move(d));
        }
        return said;
    }

    struct Computed { // I606 of one model
        lang::Diagnostic diagnostic;
        std::shared_ptr<const lang::SourceMap> sources;
        std::string seen_from;
    };

    const lang::Request& season_;
    lang::Loader& loader_;
    std::vector<Computed> computed_;
    Findings findings_;
    std::size_t models_ = 0;
    std::size_t bytes_ = 0;                 // of all texts that models were made of
    Names names_;                           // of the models that a job can price
    std::map<std::string, Names> unpriced_; // of the others, by file
    std::set<std::string> used_;   // files that priced models use: there their names have a prefix
    std::set<std::uint32_t> told_; // lines of the season with an error of their own
};

} // namespace

CheckAnswer check_season(const lang::Request& season, lang::Loader& loader) {
    return SeasonCheck(season, loader).run();
}

} // namespace acre::engine
