#include "engine/questions/outline_mentions.h"

#include <algorithm>
#include <string_view>
#include <tuple>

#include "lang/check/sheet.h"
#include "lang/syntax/tokens.h"

namespace acre::engine {

using lang::none;
using lang::Span;
using lang::TokenKind;

namespace {

class Collector {
  public:
    Collector(const PricedJob& job, const SymbolPlaces& symbols)
        : sheet_(job.sheet()),
          sources_(job.sources()),
          symbols_(symbols) {}

    std::vector<Found> all() {
        for (const auto& [place, symbol] : symbols_)
            add_declared(place.first, place.second, symbol);
        for (const lang::Node& node : sheet_.nodes)
            add_node(node);
        for (const lang::Given& given : sheet_.givens)
            for (const lang::Setting& setting : given.settings)
                if (setting.layer != lang::Layer::Model)
                    add_name_in(setting.span, sheet_.lines[given.line]);
        for (const lang::Given& given : sheet_.givens)
            for (const lang::Setting& setting : given.of_other_days)
                add_name_in(setting.span, sheet_.lines[given.line]);
        for (lang::FileId file = 0; file < sources_.size(); ++file) {
            add_listed(file);
            if (sources_.file(file).name().ends_with(".job"))
                add_sets(file);
        }
        const auto key = [](const Found& f) {
            return std::tuple(f.span.file, f.span.begin, f.span.end, f.symbol);
        };
        std::sort(
            found_.begin(), found_.end(),
            [&](const Found& a, const Found& b) { return key(a) < key(b); });
        const auto same = [&](const Found& a, const Found& b) { return key(a) == key(b); };
        found_.erase(std::unique(found_.begin(), found_.end(), same), found_.end());
        return std::move(found_);
    }

  private:
    void add_declared(lang::FileId file, std::uint32_t begin, std::uint32_t symbol) {
        const std::string_view text = sources_.file(file).text();
        const lang::Token name =
            lang::next_token(text, begin, static_cast<std::uint32_t>(text.size()));
        if (name.kind == TokenKind::Name && name.begin == begin)
            found_.push_back({{file, name.begin, name.end}, symbol});
    }

    // The symbol's own word in a name that may be dotted. A formula that nobody wrote points at
    // another text: there the word is not.
    void add(Span name, Span declared) {
        const auto symbol = symbols_.find({declared.file, declared.begin});
        if (symbol == symbols_.end() || name.file >= sources_.size())
            return;
        const std::string_view word = sources_.text(declared);
        const std::string_view text = sources_.text(name);
        for (std::size_t end = text.size(); end > 0;) {
            const std::size_t dot = text.rfind('.', end - 1);
            const std::size_t begin = dot == std::string_view::npos ? 0 : dot + 1;
            if (text.substr(begin, end - begin) == word) {
                found_.push_back({{name.file, name.begin + static_cast<std::uint32_t>(begin),
                                   name.begin + static_cast<std::uint32_t>(end)},
                                  symbol->second});
                return;
            }
            end = dot == std::string_view::npos ? 0 : dot;
        }
    }

    void add_node(const lang::Node& node) {
        if (node.op == lang::Op::Line && node.index < sheet_.lines.size()) {
            add(node.span, sheet_.lines[node.index].name_span);
        } else if (node.op == lang::Op::Define) {
            add(node.op_span, sheet_.functions[node.index].name_span);
        } else if (node.op == lang::Op::Table) {
            const lang::Table& table = sheet_.tables[node.index];
            const std::size_t at =
                sources_.text(table.span).find(table.name, std::string_view("table").size());
            if (at == std::string_view::npos)
                return;
            const auto begin = table.span.begin + static_cast<std::uint32_t>(at);
            add(node.op_span,
                {table.span.file, begin, begin + static_cast<std::uint32_t>(table.name.size())});
        }
    }

    // `set NAME = …`, or NAME = … after `with`.
    void add_name_in(Span statement, const lang::Line& line) {
        if (statement.file >= sources_.size())
            return;
        const std::string_view text = sources_.file(statement.file).text();
        lang::Token name = lang::next_solid_token(text, statement.begin, statement.end);
        if (name.in(text) == "set")
            name = lang::next_solid_token(text, name.end, statement.end);
        if (name.kind == TokenKind::Name)
            add({statement.file, name.begin, name.end}, line.name_span);
    }

    // Of what is correlated, shown and counted the sheet keeps the lines and not where they are
    // named: the names are looked up among these.
    void add_listed(lang::FileId file) {
        const std::string_view text = sources_.file(file).text();
        const auto size = static_cast<std::uint32_t>(text.size());
        bool first = true;
        for (lang::Token token = lang::next_token(text, 0, size); token.kind != TokenKind::End;
             token = lang::next_token(text, token.end, size)) {
            const std::string_view word = token.in(text);
            if (first && (word == "correlate" || word == "show" || word == "count"))
                add_names_after(file, token);
            first = token.kind == TokenKind::LineEnd;
        }
    }

    // `set NAME` of an option that is not taken: the sheet keeps nothing of it. A name that is a
    // line's own, or of all entries of a list.
    void add_sets(lang::FileId file) {
        const std::string_view text = sources_.file(file).text();
        const auto size = static_cast<std::uint32_t>(text.size());
        bool first = true;
        for (lang::Token token = lang::next_token(text, 0, size); token.kind != TokenKind::End;
             token = lang::next_token(text, token.end, size)) {
            if (first && token.in(text) == "set")
                add_set(file, lang::next_solid_token(text, token.end, size));
            first = token.kind == TokenKind::LineEnd;
        }
    }
    void add_set(lang::FileId file, const lang::Token& token) {
        const std::string_view name = token.in(sources_.file(file).text());
        for (const lang::Given& given : sheet_.givens) {
            const lang::Line& line = sheet_.lines[given.line];
            if (line.name == name || (line.entry != none && line.name.ends_with(name) &&
                                      line.name[line.name.size() - name.size() - 1] == '.'))
                return add({file, token.begin, token.end}, line.name_span);
        }
    }

    // `a, b`, or `a of c, b`; a comma goes on over the end of a line.
    void add_names_after(lang::FileId file, const lang::Token& head) {
        const std::string_view text = sources_.file(file).text();
        const auto size = static_cast<std::uint32_t>(text.size());
        lang::Token name = lang::next_solid_token(text, head.end, size);
        while (name.kind == TokenKind::Name) {
            for (const Span declared : listed_)
                add({file, name.begin, name.end}, declared);
            lang::Token next = lang::next_solid_token(text, name.end, size);
            if (next.in(text) == "of")
                next = lang::next_solid_token(
                    text, lang::next_solid_token(text, next.end, size).end, size);
            if (next.in(text) != ",")
                return;
            name = lang::next_solid_token(text, next.end, size);
        }
    }

    // Where the lines are declared that are correlated, shown or counted.
    std::vector<Span> listed_lines() const {
        std::vector<Span> places;
        for (const lang::Correlation& correlation : sheet_.correlations)
            for (const std::uint32_t given : {correlation.first, correlation.second})
                if (given != none)
                    places.push_back(sheet_.lines[sheet_.givens[given].line].name_span);
        for (const lang::Counted& counted : sheet_.counted)
            places.push_back(sheet_.lines[counted.line].name_span);
        for (const lang::Line& line : sheet_.lines)
            if (line.shown)
                places.push_back(line.name_span);
        return places;
    }

    const lang::Sheet& sheet_;
    const lang::SourceMap& sources_;
    const SymbolPlaces& symbols_;
    const std::vector<Span> listed_ = listed_lines();
    std::vector<Found> found_;
};

} // namespace

std::vector<Found> mentions_of(const PricedJob& job, const SymbolPlaces& symbols) {
    return Collector(job, symbols).all();
}

} // namespace acre::engine
