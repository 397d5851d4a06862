#include "cli/editor/completion.h"

#include <algorithm>
#include <array>
#include <set>

#include "cli/editor/at_cursor.h"
#include "cli/editor/buffer_loader.h"
#include "cli/editor/define_names.h"
#include "cli/editor/scope_names.h"
#include "lang/syntax/parse.h"
#include "lang/syntax/places.h"
#include "lang/syntax/word_page.h"
#include "lang/syntax/words.h"
#include "lang/units/catalog.h"
#include "lang/units/measures.h"

namespace acre::cli {

namespace {

using Kind = Suggestion::Kind;
using lang::Token;
using lang::TokenKind;

// The solid tokens of the line up to the cursor, without the word that is being written.
struct Before {
    std::vector<Token> tokens;
    bool in_text = false; // in quotes that are not closed
    bool in_comment = false;
};

Before before_cursor(std::string_view text, std::uint32_t offset) {
    Before before;
    const std::size_t end = offset == 0 ? std::string_view::npos : text.rfind('\n', offset - 1);
    auto at = end == std::string_view::npos ? 0 : static_cast<std::uint32_t>(end + 1);
    for (;;) {
        const Token token = lang::next_token(text, at, offset);
        if (token.kind == TokenKind::End)
            return before;
        at = token.end;
        if (token.kind == TokenKind::Comment)
            before.in_comment = true;
        if (token.kind == TokenKind::Text)
            before.in_text =
                token.end == offset && (token.end - token.begin < 2 || text[token.end - 1] != '"');
        const bool written_now = token.kind == TokenKind::Name && token.end == offset;
        if (!written_now)
            before.tokens.push_back(token);
    }
}

// Where a line stands in its file.
struct LinePlace {
    lang::Keyword opens = lang::Keyword::None; // how the file begins; None: this is the first line
    lang::Keyword above = lang::Keyword::None; // of the statement that it is an inner line of
};

LinePlace place_of_line(std::string_view text, std::uint32_t offset) {
    LinePlace place;
    const std::size_t end = offset == 0 ? std::string_view::npos : text.rfind('\n', offset - 1);
    if (end == std::string_view::npos)
        return place;
    const auto indent_of = [](std::string_view line) {
        return std::min(line.find_first_not_of(" \t"), line.size());
    };
    std::string_view here = text.substr(end + 1);
    here = here.substr(0, std::min(here.find('\n'), here.size()));
    const std::size_t indent = std::min(indent_of(here), std::size_t{offset} - (end + 1));
    for (std::size_t begin = 0; begin <= end;) {
        const std::size_t stop = std::min(text.find('\n', begin), end);
        const std::string_view line = text.substr(begin, stop - begin);
        begin = stop + 1;
        const std::size_t in = indent_of(line);
        if (in == line.size() || line[in] == '#' || line[in] == '\r')
            continue;
        const char* word = line.data() + in;
        const char* const word_end = lang::end_of_word(word, line.data() + line.size());
        lang::Keyword head = lang::keyword_of({word, static_cast<std::size_t>(word_end - word)});
        if (place.opens == lang::Keyword::None) {
            place.opens = head;
            continue; // it has no inner lines
        }
        if (in > 0) // a statement within another
            continue;
        if (head == lang::Keyword::None && place.opens == lang::Keyword::Job && word != word_end)
            head = lang::Keyword::Entry;
        place.above = lang::has_inner_lines(head) || head == lang::Keyword::Entry
                          ? head
                          : lang::Keyword::None;
    }
    if (indent == 0)
        place.above = lang::Keyword::None;
    return place;
}

class Completer {
  public:
    Completer(const Workspace& workspace, const TextView& view, const std::string& file,
              std::string_view text, std::uint32_t offset)
        : workspace_(workspace),
          view_(view),
          file_(file),
          text_(text),
          offset_(offset),
          before_(before_cursor(text, offset)) {
        if (!file_kind(file, kind_))
            kind_ = lang::FileKind::Model;
        place_ = place_of_line(text, offset);
        if (kind_ == lang::FileKind::Model && place_.opens == lang::Keyword::Library)
            kind_ = lang::FileKind::Library;
    }

    std::vector<Suggestion> all() {
        if (before_.in_comment)
            return {};
        if (before_.in_text) {
            add_files();
            return std::move(out_);
        }
        const std::string_view last = word(1);
        if (before_.tokens.empty())
            add_statements();
        else if (takes_no_formula())
            return {};
        else if (kind(1) == TokenKind::Text && before_.tokens.size() > 1)
            add_words();
        else if (is_unit_place())
            add_units();
        else if (last == "set")
            add_names(true);
        else if (const engine::Symbol* choice = wanted_choice())
            add_options(*choice);
        else
            add_formula();
        return std::move(out_);
    }

  private:
    // The n-th token from the cursor back; empty: there is none.
    std::string_view word(std::size_t back) const {
        const auto& tokens = before_.tokens;
        return back > tokens.size() ? std::string_view{} : tokens[tokens.size() - back].in(text_);
    }
    TokenKind kind(std::size_t back) const {
        const auto& tokens = before_.tokens;
        return back > tokens.size() ? TokenKind::End : tokens[tokens.size() - back].kind;
    }
    std::string_view first() const {
        return before_.tokens.empty() ? std::string_view{} : before_.tokens.front().in(text_);
    }
    void add(Kind kind, std::string_view text, std::string detail) {
        out_.push_back({kind, std::string(text), std::move(detail)});
    }

    void add_files() {
        using lang::ReferenceKind;
        struct Named {
            std::string_view by;
            ReferenceKind kind;
            const char* is;
        };
        BufferLoader loader(workspace_.documents, workspace_.settings.models);
        for (const Named& named : {Named{"season", ReferenceKind::Season, "a season"},
                                   Named{"use", ReferenceKind::Model, "a model"},
                                   Named{"model", ReferenceKind::Model, "a model"},
                                   Named{"values", ReferenceKind::Values, "values"},
                                   Named{"firm", ReferenceKind::Firm, "a firm"}})
            if (named.by == first())
                for (const std::string& name : loader.references(named.kind, file_))
                    add(Kind::File, name, named.is);
    }

    void add_statements() {
        for (const lang::WordPage& page : lang::word_pages())
            for (const std::string_view word : page.words) {
                const lang::Keyword head = lang::keyword_of(word);
                const bool stands = place_.opens == lang::Keyword::None
                                        ? lang::may_begin_file(head, kind_)
                                        : lang::may_begin(head, kind_, place_.above);
                if (head != lang::Keyword::None && stands && told_.insert(word).second)
                    add(Kind::Word, word, page.summary);
            }
    }

    // `date 2027-06-21`, `note "…"`: what stands after the word is no formula.
    bool takes_no_formula() const {
        using lang::Keyword;
        const auto& tokens = before_.tokens;
        const bool is_name =
            tokens.size() > 1 && (tokens[1].in(text_) == ":" || tokens[1].in(text_) == "=");
        constexpr auto heads = std::to_array<Keyword>(
            {Keyword::Date, Keyword::Closed, Keyword::Note, Keyword::For, Keyword::Job,
             Keyword::Model, Keyword::Library, Keyword::Season, Keyword::Values, Keyword::Firm,
             Keyword::Source, Keyword::Option, Keyword::Caution});
        const bool condition = tokens.size() > 1 && tokens[1].in(text_) == "when";
        return !is_name && !condition &&
               std::find(heads.begin(), heads.end(), lang::keyword_of(first())) != heads.end();
    }

    bool is_unit_place() const {
        if (kind(1) == TokenKind::Number || word(1) == "per")
            return true;
        const bool name_before = kind(2) == TokenKind::Name || word(2) == ")";
        if (word(1) == ":" && name_before)
            return true;
        // Within a unit: `$/`, `ac/`.
        const auto& tokens = before_.tokens;
        return word(1) == "/" && tokens.size() > 1 &&
               tokens[tokens.size() - 2].end == tokens.back().begin &&
               (kind(2) == TokenKind::Name || word(2) == "$");
    }

    // `set NAME = …`: the symbol that is set.
    const engine::Symbol* symbol_set() const {
        if (view_.outline == nullptr || before_.tokens.size() < 2)
            return nullptr;
        const std::size_t name = first() == "set" ? 1 : first() == "given" ? 1 : 0;
        const std::string_view wanted = before_.tokens[name].in(text_);
        return named(*view_.outline, file_, wanted);
    }

    const engine::Symbol* wanted_choice() const {
        if (view_.outline == nullptr)
            return nullptr;
        const std::size_t back = word(1) == "is" ? 2 : word(1) == "not" && word(2) == "is" ? 3 : 0;
        const engine::Symbol* symbol =
            back > 0 ? named(*view_.outline, file_, word(back))
                     : (word(1) == "=" && first() == "set" ? symbol_set() : nullptr);
        return symbol != nullptr && symbol->is_choice() ? symbol : nullptr;
    }

    void add_options(const engine::Symbol& choice) {
        for (const std::string& option : choice.options)
            add(Kind::Option, option, choice.label);
    }

    void add_units() {
        lang::UnitCatalog units;
        if (view_.outline != nullptr)
            for (const std::string& noun : view_.outline->nouns)
                units.add_noun(noun);
        lang::UnitError error{};
        const bool sets = first() == "set" || (first() == "given" && word(1) != ":");
        const engine::Symbol* symbol = sets ? symbol_set() : nullptr;
        const auto wanted = symbol != nullptr && !symbol->unit.empty()
                                ? lang::read_unit(symbol->unit, units, error)
                                : std::nullopt;
        if (wanted)
            add(Kind::Unit, symbol->unit, "the unit of " + symbol->name);
        for (const lang::Measure& unit : lang::measures()) {
            const lang::Unit* found = units.find(unit.name);
            if (found != nullptr && (!wanted || found->dim == wanted->dim) &&
                (!wanted || unit.name != symbol->unit))
                add(Kind::Unit, unit.name, std::string(unit.kind));
        }
        if (!wanted && view_.outline != nullptr)
            for (const std::string& noun : view_.outline->nouns)
                add(Kind::Unit, noun, "a unit of the model");
    }

    void add_names(bool givens) {
        if (view_.outline == nullptr)
            return;
        for (ScopeName& name : names_in(*view_.outline, file_, text_, kind_)) {
            const bool given = name.symbol->kind == engine::Symbol::Kind::Given;
            if (givens && !given)
                continue;
            std::string detail = std::move(name.value);
            if (!name.symbol->label.empty())
                detail += (detail.empty() ? "" : ", ") + name.symbol->label;
            add(Kind::Name, name.text, std::move(detail));
        }
    }

    // What goes on after a text: `because`, `swing`, `covers`.
    void add_words() {
        for (const std::string_view word : lang::explained_words())
            if (lang::role_of(lang::keyword_of(word)) == lang::WordRole::Joint)
                add(Kind::Word, word, lang::pages_of_word(word).front().summary);
    }

    void add_formula() {
        if (const auto own = names_of_define(text_, offset_))
            for (const std::string_view name : *own)
                add(Kind::Name, name, "of the function");
        else
            add_names(false);
        if (view_.outline != nullptr)
            for (const engine::Symbol& symbol : view_.outline->symbols)
                if (symbol.kind == engine::Symbol::Kind::Function ||
                    symbol.kind == engine::Symbol::Kind::Table)
                    add(Kind::Function, symbol.name, symbol.written);
        for (const std::string_view word : lang::explained_words()) {
            const lang::WordRole role = lang::role_of(lang::keyword_of(word));
            if (const std::string_view form = lang::form_of_function(word); !form.empty())
                add(Kind::Function, word, std::string(form));
            else if (role == lang::WordRole::Joint || role == lang::WordRole::Value)
                add(Kind::Word, word, lang::pages_of_word(word).front().summary);
        }
    }

    const Workspace& workspace_;
    const TextView& view_;
    const std::string& file_;
    std::string_view text_;
    std::uint32_t offset_;
    Before before_;
    lang::FileKind kind_{};
    LinePlace place_;
    std::set<std::string_view> told_;
    std::vector<Suggestion> out_;
};

} // namespace

std::vector<Suggestion> suggestions_at(const Workspace& workspace, const TextView& view,
                                       const std::string& file, std::string_view text,
                                       std::uint32_t offset) {
    return Completer(workspace, view, file, text, offset).all();
}

} // namespace acre::cli
