#include "cli/shared/quote_book/finished.h"

#include <utility>

#include "cli/shared/text/page.h"
#include "engine/book/quoted.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

std::string changed(const engine::Life& life, const engine::Standing& standing,
                    const engine::Lives& lives) {
    for (const std::string& number : life.change_orders)
        if (const engine::Life* order = lives.find(number)) {
            const std::string state = lives.standing(*order, engine::no_day).state;
            if (state == "accepted" || state == "finished")
                return "change order " + number + " changed the work";
        }
    if (!standing.option.empty() && standing.option != life.quote.own_option)
        return "another option was taken: " + standing.option;
    return {};
}

} // namespace

lang::Outcome<std::vector<LeftOut>> each_finished(const Book& book, const BookState& state,
                                                  const TakeFinished& take) {
    std::vector<LeftOut> left_out;
    for (const engine::Life* life : state.lives.all()) {
        const engine::Standing standing = state.lives.standing(*life, engine::no_day);
        if (standing.state != "finished" || !life->quote.changes.empty())
            continue;
        const std::string& number = life->quote.quote;
        const lang::Outcome<std::string> seal = log_seal(book, *life);
        if (!seal)
            return seal.said;
        if (seal->empty()) {
            left_out.push_back({number, "no log was sealed when it closed"});
            continue;
        }
        engine::FoundText text = book.text(*seal);
        if (!text.fault.empty()) {
            left_out.push_back({number, "its log cannot be had: " + text.fault});
            continue;
        }
        lang::Outcome<Work> work = accepted_work(book, state, number);
        if (!work) {
            const lang::Diagnostic& first = work.said.diagnostics.all().front();
            if (first.code != lang::Code::R006 && first.code != lang::Code::R010)
                return std::move(work.said);
            left_out.push_back({number, first.title});
            continue;
        }
        lang::Outcome<engine::JobLog> log = engine::read_job_log(
            "log of " + number, std::move(text.text), engine::log_lines(work->quote));
        if (!log) {
            left_out.push_back(
                {number, "its log cannot be read: " + log.said.diagnostics.all().front().title});
            continue;
        }
        if (auto said = take(
                {number, std::move(*work), std::move(*log), changed(*life, standing, state.lives)}))
            return std::move(*said);
    }
    return left_out;
}

std::string left_out_text(const std::vector<LeftOut>& left_out) {
    std::string text;
    for (const LeftOut& one : left_out)
        text += "\n" + paragraph("Left out: " + lang::terminal_text(one.quote) + ", " +
                                     lang::terminal_text(one.why) + ".",
                                 "");
    return text;
}

} // namespace acre::cli
