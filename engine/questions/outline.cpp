#include "engine/questions/outline.h"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "engine/questions/outline_mentions.h"
#include "engine/questions/price.h"
#include "engine/questions/subject.h"
#include "engine/words/billing.h"
#include "engine/words/signature.h"
#include "engine/words/words.h"
#include "lang/units/number_text.h"

namespace acre::engine {

using lang::none;

namespace {

constexpr std::size_t most_lines = 12; // of one statement, that an editor shows
constexpr std::size_t longest_formula = 200;
constexpr std::string_view table_word = "table"; // a table's statement begins with it

Stretch stretch(const lang::SourceMap& sources, lang::Span span) {
    return {sources.file(span.file).name(), span.begin, span.end};
}

Symbol::Kind kind_of(const lang::Line& line) {
    switch (line.role) {
    case lang::Role::Given:
        return Symbol::Kind::Given;
    case lang::Role::CostRate:
    case lang::Role::CostQuantity:
    case lang::Role::CostAmount:
        return Symbol::Kind::Cost;
    case lang::Role::EventCount:
    case lang::Role::EventAmount:
    case lang::Role::EventMoney:
        return Symbol::Kind::Event;
    default:
        return Symbol::Kind::Line;
    }
}

class Outliner {
  public:
    explicit Outliner(const PricedJob& job)
        : job_(job),
          sheet_(job.sheet()),
          sources_(job.sources()) {}

    Outline outline() {
        out_.title = title_of(job_);
        for (lang::LineId id = 0; id < sheet_.lines.size(); ++id)
            add_line(id);
        for (const lang::Function& function : sheet_.functions)
            add_function(function);
        for (const lang::Table& table : sheet_.tables)
            add_table(table);
        for (const Found& found : mentions_of(job_, symbol_at_))
            out_.mentions.push_back({stretch(sources_, found.span), found.symbol});
        add_price();
        for (const auto& [key, name] : job_.used().names)
            out_.uses.push_back({std::get<2>(key), std::get<1>(key), name});
        for (lang::FileId id = 0; id < sources_.size(); ++id)
            out_.files.push_back(sources_.file(id).name());
        for (const std::string_view name : sheet_.units.names())
            if (!sheet_.units.is_built_in(name))
                out_.nouns.emplace_back(name);
        out_.options = sheet_.job.options;
        return std::move(out_);
    }

  private:
    Symbol& symbol_at(lang::Span name, std::string_view text) {
        const auto [at, is_new] = symbol_at_.try_emplace(
            {name.file, name.begin}, static_cast<std::uint32_t>(out_.symbols.size()));
        if (is_new) {
            Symbol& symbol = out_.symbols.emplace_back();
            symbol.name = text;
            symbol.at = stretch(sources_, name);
        }
        return out_.symbols[at->second];
    }

    void add_line(lang::LineId id) {
        const lang::Line& line = sheet_.lines[id];
        if (line.role == lang::Role::PriceLine || line.role == lang::Role::Total ||
            line.name_span.file >= sources_.size())
            return;
        Symbol& symbol = symbol_at(line.name_span, sources_.text(line.name_span));
        if (symbol.lines.empty()) {
            symbol.kind = kind_of(line);
            symbol.label = line.label;
            symbol.unit = unit_text(sheet_, line);
            if (line.type.kind == lang::Type::Kind::Choice)
                symbol.options = sheet_.choices[line.type.choice].options;
            if (line.value != none) {
                symbol.written = formula_text(sheet_, sources_, id);
                if (symbol.written.size() > longest_formula)
                    symbol.written.clear();
            }
        }
        if (symbol.lines.size() < most_lines)
            symbol.lines.push_back(line_now(id));
    }

    LineNow line_now(lang::LineId id) const {
        const lang::Line& line = sheet_.lines[id];
        LineNow now;
        now.name = line.name;
        now.text = value_text(sheet_, id, job_.value(id));
        now.amount = line.role == lang::Role::CostAmount;
        if (line.given == none || sheet_.givens[line.given].settings.empty()) {
            now.because = line.because;
            return now;
        }
        const lang::Setting& setting = sheet_.givens[line.given].settings.back();
        now.set_by = layer_text(setting.layer);
        now.because = setting.because;
        now.place = place_text(sources_, setting.span);
        return now;
    }

    void add_function(const lang::Function& function) {
        if (is_further_copy(function))
            return;
        Symbol& symbol = symbol_at(function.name_span, function.name);
        symbol.kind = Symbol::Kind::Function;
        symbol.label = function.label;
        symbol.unit = function.type_text;
        symbol.sources = function.sources;
        symbol.parameters = parameters_of(function);
        symbol.written = signature_of(function);
    }

    void add_table(const lang::Table& table) {
        const std::string_view text = sources_.text(table.span);
        const std::size_t at = text.find(table.name, table_word.size());
        if (at == std::string_view::npos)
            return;
        const auto begin = table.span.begin + static_cast<std::uint32_t>(at);
        const auto length = static_cast<std::uint32_t>(table.name.size());
        Symbol& symbol = symbol_at({table.span.file, begin, begin + length}, table.name);
        symbol.kind = Symbol::Kind::Table;
        symbol.label = table.label;
        symbol.unit = table.result_text;
        symbol.parameters = {table.parameter_name + " : " + table.parameter_text};
        symbol.written =
            fmt::format("{} ({}) : {}", table.name, symbol.parameters[0], table.result_text);
    }

    // The same figures as `price` shows, or none.
    void add_price() {
        if (sheet_.prices.empty())
            return;
        const lang::Outcome<PriceAnswer> price = ask(job_, PriceQuestion{});
        if (!price)
            return;
        const Estimate& estimate = price->estimate;
        out_.total = lang::cents_text(estimate.price_cents);
        if (!estimate.per.empty())
            out_.per_unit =
                lang::quantity_text(estimate.price_per_unit, "$/" + estimate.per) + " all in";
        for (std::size_t i = 0; i < estimate.items.size() && i < sheet_.prices.size(); ++i) {
            const ItemRow& item = estimate.items[i];
            out_.prices.push_back(
                {stretch(sources_, sheet_.prices[i].span), item.title, item.name,
                 lang::cents_text(item.cents),
                 item.per.empty() ? std::string() : billed_rate_text(item.rate, item.per)});
        }
    }

    const PricedJob& job_;
    const lang::Sheet& sheet_;
    const lang::SourceMap& sources_;
    SymbolPlaces symbol_at_;
    Outline out_;
};

} // namespace

Outline ask(const PricedJob& job, const OutlineQuestion&) {
    return Outliner(job).outline();
}

} // namespace acre::engine
