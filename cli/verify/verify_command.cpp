// verify: seals, chain, and the price of every quote worked out again from its own record.
#include <string>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "cli/shared/arguments.h"
#include "cli/shared/quote_book/book.h"
#include "engine/book/canonical.h"
#include "engine/book/record.h"
#include "engine/book/shape.h"
#include "engine/driver.h"
#include "engine/questions/estimate.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

using Json = nlohmann::ordered_json;

struct Verified {
    std::string file, quote;
    std::vector<std::string> differences;
};

void price_again(const BookEntry& entry, std::vector<Verified>& verified) {
    const auto record = engine::read_canonical(entry.bytes);
    if (!record || !engine::shape_fault(*record).empty() ||
        record->value("kind", std::string()) != "quote")
        return; // what has not the shape of a record is a fault of the book
    Verified& one = verified.emplace_back();
    one.file = Book::file_name(entry.index);
    one.quote = record->value("quote", std::string());
    const auto request = engine::request_of(*record);
    if (!request) {
        one.differences.push_back("the record lacks the texts to work the price out again");
        return;
    }
    const engine::UsedTexts texts = engine::used_texts_of(*record);
    engine::UsedTextsLoader loader(texts);
    const lang::Outcome<engine::Job> again = engine::make_job(*request, loader);
    const lang::Outcome<engine::Estimate> estimate =
        again ? engine::estimate(**again) : lang::Outcome<engine::Estimate>();
    one.differences = engine::differences(*record, again, estimate);
}

} // namespace

int verify_command(Words words, Console& console) {
    std::string folder = "quote-book";
    bool json = false;
    Arguments line("verify",
                   "Proves a quote book: every record is as it was sealed, none is missing, and "
                   "every price comes out to the same cent from the "
                   "texts in its record.",
                   "acrewright verify examples/quote-book");
    line.positional("BOOK", "the folder (quote-book)", folder, false);
    line.flag("--json", "the result as JSON, for other programs", json);
    if (const auto code = line.read(words, console))
        return *code;
    const Book book(folder);
    std::size_t records = 0;
    std::vector<Verified> verified;
    std::string reason;
    const auto visit = [&](const BookEntry& entry) {
        price_again(entry, verified);
        ++records;
        return true;
    };
    if (!book.each(visit, reason)) {
        console.err +=
            "acrewright: the book `" + lang::terminal_text(folder) + "`: " + reason + "\n";
        return exit_file;
    }
    const std::vector<BookFault> faults = book.verify();
    std::size_t differ = 0;
    for (const Verified& one : verified)
        differ += one.differences.empty() ? 0 : 1;

    if (json) {
        Json document = {{"schema", "acrewright.verify/1"},
                         {"records", records},
                         {"faults", Json::array()},
                         {"quotes", Json::array()}};
        for (const BookFault& fault : faults)
            document["faults"].push_back({{"file", fault.file}, {"what", fault.what}});
        for (const Verified& one : verified)
            document["quotes"].push_back({{"quote", one.quote},
                                          {"file", one.file},
                                          {"same", one.differences.empty()},
                                          {"differences", one.differences}});
        console.out += document.dump(2, ' ', true, Json::error_handler_t::replace) + "\n";
    } else {
        for (const BookFault& fault : faults)
            console.out += fmt::format("{} {}\n", lang::terminal_text(fault.file),
                                       lang::terminal_text(fault.what));
        for (const Verified& one : verified)
            for (const std::string& difference : one.differences)
                console.out += fmt::format("quote {} ({}): {}\n", lang::terminal_text(one.quote),
                                           one.file, lang::terminal_text(difference));
        console.out +=
            fmt::format("{} records, {} at fault; {} quotes priced again, {} to another result\n",
                        records, faults.size(), verified.size(), differ);
    }
    return faults.empty() && differ == 0 ? exit_done : exit_at_fault;
}

} // namespace acre::cli
