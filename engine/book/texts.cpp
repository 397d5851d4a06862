#include "engine/book/texts.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/book/seal.h"

namespace acre::engine {

bool is_seal(std::string_view text) {
    return text.size() == 64 &&
           text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

std::vector<std::string> seals_in(const Record& record) {
    std::vector<std::string> seals;
    const auto add = [&](const std::string& seal) {
        if (!seal.empty())
            seals.push_back(seal);
    };
    if (const QuoteRecord* quote = record.quote()) {
        for (const auto& [name, seal] : quote->texts)
            add(seal);
        for (const RecordPicture& picture : quote->pictures)
            add(picture.svg);
        for (const std::string* seal : {&quote->wording_text, &quote->page_html, &quote->page_text})
            add(*seal);
    } else if (const WordRecord* word = record.word()) {
        add(word->log);
    } else if (const auto* log = std::get_if<LogRecord>(&record.body)) {
        add(log->text);
    } else if (const BillRecord* bill = record.bill()) {
        for (const std::string* seal : {&bill->log, &bill->posted, &bill->page})
            add(*seal);
    }
    return seals;
}

std::string carry(QuoteRecord& quote, std::string text) {
    std::string seal = sha256(text);
    quote.carried.insert_or_assign(seal, std::move(text));
    return seal;
}

const std::string* carried_text(const QuoteRecord& quote, const std::string& seal) {
    const auto found = quote.carried.find(seal);
    return found == quote.carried.end() ? nullptr : &found->second;
}

FoundText KeptTexts::find(const std::string& seal) {
    {
        const std::lock_guard lock(mutex_);
        if (const auto known = texts_.find(seal); known != texts_.end())
            return {known->second, {}};
    }
    FoundText found = book_(seal);
    if (!found.fault.empty() || found.text.size() > kept_text_bytes)
        return found;
    const std::lock_guard lock(mutex_);
    if (bytes_ + found.text.size() > kept_text_bytes) {
        texts_.clear();
        bytes_ = 0;
    }
    if (texts_.emplace(seal, found.text).second)
        bytes_ += found.text.size();
    return found;
}

std::string fetch_texts(QuoteRecord& quote, const SealedTexts& book) {
    std::string fault;
    const auto fetch = [&](const std::string& name, const std::string& seal) {
        if (seal.empty() || quote.carried.contains(seal))
            return;
        FoundText found = book(seal);
        if (found.fault.empty())
            quote.carried.emplace(seal, std::move(found.text));
        else if (fault.empty())
            fault = fmt::format("its text `{}` {}", name, found.fault);
    };
    for (const auto& [name, seal] : quote.texts)
        fetch(name, seal);
    for (const RecordPicture& picture : quote.pictures)
        fetch("map " + picture.entry, picture.svg);
    fetch(quote.wording, quote.wording_text);
    fetch("page as HTML", quote.page_html);
    fetch("page as text", quote.page_text);
    return fault;
}

bool has_boundary(const QuoteRecord& quote) {
    return std::any_of(
        quote.references.begin(), quote.references.end(),
        [](const RecordReference& one) { return one.kind == "boundary"; });
}

std::optional<MadeFrom> made_from(const QuoteRecord& quote, const std::string& option) {
    const auto text_named = [&](const std::string& name) -> const std::string* {
        const auto seal = quote.texts.find(name);
        return seal == quote.texts.end() ? nullptr : carried_text(quote, seal->second);
    };
    const RecordRequest& saved = quote.request;
    MadeFrom made;
    const std::string* text = text_named(saved.name);
    if (text == nullptr)
        return std::nullopt;
    made.request.name = saved.name;
    made.request.text = *text;
    made.request.kind = saved.kind == "job" ? lang::FileKind::Job : lang::FileKind::Model;
    made.request.option = saved.option;
    made.request.field_sets = saved.field_sets;
    if (!option.empty() && option != saved.option) {
        made.request.option = option;
        if (has_boundary(quote))
            made.request.field_sets.reset();
    }
    made.request.notation = static_cast<std::uint32_t>(
        std::clamp<std::int64_t>(saved.notation, 1, lang::current_notation));
    if (!saved.season.empty()) {
        const std::string* season = text_named(saved.season);
        if (season == nullptr)
            return std::nullopt;
        made.request.season = lang::Loaded{saved.season, *season};
    }
    made.request.sets = saved.sets;
    for (const RecordReference& one : quote.references)
        made.texts.names[{reference_kind(one.kind), one.reference, one.from}] = one.name;
    for (const auto& [name, seal] : quote.texts)
        if (const std::string* found = carried_text(quote, seal))
            made.texts.texts[name] = *found;
    return made;
}

lang::Diagnostic lacks_texts(std::string_view number) {
    return lang::placeless(lang::Code::R006,
                           fmt::format("the record of quote {} lacks its texts", number),
                           {"it cannot be priced again without the files it was made from"});
}

} // namespace acre::engine
