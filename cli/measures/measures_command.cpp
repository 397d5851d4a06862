#include "cli/command.h"
#include "cli/measures/measures_page.h"
#include "cli/shared/arguments.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

Reply converted(const std::string& quantity, const std::string& unit, bool json) {
    lang::Outcome<engine::ConversionAnswer> answer =
        engine::ask(engine::ConversionQuestion{quantity, unit});
    Reply reply(std::move(answer.said));
    if (!answer)
        return reply;
    if (json)
        reply.document = conversion_json(*answer);
    else
        reply.page = lang::terminal_text(answer->from + " = " + answer->text) + "\n";
    return reply;
}

} // namespace

Reply measures_command(Words words, Console& console) {
    std::string first;
    std::string in;
    std::string unit;
    bool json = false;
    Arguments line("measures",
                   "Lists all units by what they measure, with how else each may be written. With "
                   "WORD it shows those of that name or kind. With a quantity, `in` and a unit it "
                   "says how many of that unit the quantity is.",
                   "acrewright measures '45 gal/h' in L/h");
    line.positional("WORD", "a unit or a kind, such as acre or area; or a quantity", first, false);
    line.positional("in", "the word in", in, false);
    line.positional("UNIT", "the unit to say the quantity in", unit, false);
    line.flag("--json", "the same as JSON", json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (!in.empty() && (in != "in" || unit.empty()))
        return lang::placeless(lang::Code::C002, "a quantity is said in another unit with `in`", {},
                               {"write  acrewright measures '45 gal/h' in L/h"});
    if (!in.empty())
        return converted(first, unit, json);
    lang::Outcome<engine::MeasuresAnswer> answer = engine::ask(engine::MeasuresQuestion{first});
    Reply reply(std::move(answer.said));
    if (!answer)
        return reply;
    if (json)
        reply.document = measures_json(*answer);
    else
        reply.page = measures_text(*answer, console.color_out);
    return reply;
}

} // namespace acre::cli
