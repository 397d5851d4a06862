#include "engine/book/record.h"

#include <algorithm>
#include <cmath>

#include "engine/book/before.h"
#include "engine/book/canonical.h"
#include "engine/book/reader.h"
#include "engine/book/seal.h"
#include "engine/book/writer.h"
#include "lang/check/sheet.h"

namespace acre::engine {
namespace {

constexpr std::string_view kinds[] = {"", "quote", "word", "key", "log", "bill"};

decltype(Record::body) body_named(const std::string& kind) {
    if (kind == "quote")
        return QuoteRecord();
    if (kind == "word")
        return WordRecord();
    if (kind == "key")
        return KeyRecord();
    if (kind == "log")
        return LogRecord();
    if (kind == "bill")
        return BillRecord();
    return OtherRecord();
}

Json json_of(Record record) {
    RecordWriter writer;
    header_fields(writer, record);
    std::visit([&](auto& body) { fields(writer, body); }, record.body);
    if (!record.other.empty())
        writer.json.update(Json::parse(record.other), true);
    writer.json["schema"] = record_schema;
    return std::move(writer.json);
}

// A record of version 1 has its texts in itself, and some words for what is called otherwise now.
void as_now(Record& record) {
    if (auto* word = std::get_if<WordRecord>(&record.body))
        word->state = word->state == "closed" ? "finished" : word->state;
    auto* quote = std::get_if<QuoteRecord>(&record.body);
    if (quote == nullptr)
        return;
    const auto carry = [&](std::string& text) {
        std::string seal = sha256(text);
        quote->carried.emplace(seal, std::move(text));
        text = std::move(seal);
    };
    for (RecordGiven& given : quote->givens)
        if (given.set_by == "block")
            given.set_by = "entry";
    for (auto& [name, text] : quote->texts)
        carry(text);
    for (RecordPicture& picture : quote->pictures)
        carry(picture.svg);
}

// Those that were not asked for, as they stand.
std::string other_members(const JsonValue& json, const std::vector<std::string_view>& asked) {
    std::string other;
    for (const JsonValue& member : json)
        if (member.name != "schema" &&
            std::find(asked.begin(), asked.end(), member.name) == asked.end()) {
            other += other.empty() ? '{' : ',';
            other += member.bytes;
        }
    return other.empty() ? other : other + '}';
}

void read_members(const JsonValue& json, ReadRecord& to) {
    Record& record = to.record;
    std::string fault;
    std::vector<std::string_view> asked;
    RecordReader reader(json, fault, &asked);
    header_fields(reader, record);
    record.body = body_named(record.kind);
    std::visit([&](auto& body) { fields(reader, body); }, record.body);
    record.other = other_members(json, asked);
    auto* quote = std::get_if<QuoteRecord>(&record.body);
    if (record.version == 1)
        as_now(record);
    else if (quote != nullptr && !quote->shown)
        quote->shown.emplace(); // an empty list is left out
    if (quote != nullptr) {
        if (record.version == 1 && quote->counted.empty())
            count_as_before(*quote);
        for (CountedLine& line : quote->counted)
            if (json.find("counted") != nullptr)
                line.how = how_counted(line.unit, !line.machine.empty());
        quote->overhead = overhead_of(*quote);
    }
    if (!fault.empty() && to.fault.empty())
        to.fault = "is not a record of this program: " + fault;
}

} // namespace

Json priced_json(QuoteRecord quote) {
    RecordWriter writer;
    priced_fields(writer, quote);
    return std::move(writer.json);
}

ReadRecord read_record(std::string_view bytes) {
    ReadRecord read;
    std::string sealed;
    const std::optional<CanonicalText> text = read_canonical(bytes, &sealed);
    if (!text || !text->root().is(JsonValue::Kind::Object)) {
        read.fault = "is not a whole record: cut short, or changed";
        return read;
    }
    const JsonValue& json = text->root();
    read.whole = true;
    read.record.version = is_version_1(json) ? 1 : 2;
    const JsonValue* seal = json.find("seal");
    if (read.record.version == 2 && !json.find("schema")->is_text(record_schema))
        read.fault = "has a schema that this program does not know";
    else if (seal == nullptr || !seal->is_text(sha256(sealed)))
        read.fault = "was changed after it was sealed";
    read_members(json, read);
    const Record& record = read.record;
    if (read.fault.empty() && (!record.signer.empty() || !record.signature.empty()) &&
        !is_signed(record.seal, record.signature, record.signer))
        read.fault = "is not signed by the key it names";
    return read;
}

std::string seal_record(Record& record, std::int64_t index, std::string_view previous,
                        std::string_view key) {
    record.version = 2;
    record.kind = kinds[record.body.index()];
    record.index = index;
    record.previous = previous;
    record.signer = key.substr(key.size() / 2); // the second half of a secret key is open
    record.seal.clear();
    record.signature.clear();
    Json json = json_of(record);
    record.seal = sha256(sealed_text(json));
    json["seal"] = record.seal;
    if (!key.empty()) {
        record.signature = sign(record.seal, key).value_or("");
        json["signature"] = record.signature;
    }
    return canonical(json) + "\n";
}

std::string draft_json(const Record& record) {
    Record draft = record;
    draft.kind = kinds[draft.body.index()];
    return json_of(std::move(draft)).dump(-1, ' ', true, Json::error_handler_t::replace) + "\n";
}

} // namespace acre::engine
