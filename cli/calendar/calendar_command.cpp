#include "cli/calendar/calendar_page.h"
#include "cli/command.h"
#include "cli/shared/job.h"

namespace acre::cli {

Reply calendar_command(Words words, Console& console) {
    JobArguments arguments;
    Arguments line("calendar",
                   "Shows the days of a job: when it starts, what is done each day, which days the "
                   "season is closed, by when the move must begin, and when it is done.",
                   "acrewright calendar examples/06-far-away.job");
    arguments.declare(line);
    if (auto reply = line.read(words))
        return std::move(*reply);
    const lang::Outcome<engine::Job> job = open_job(arguments);
    if (!job)
        return of_the_price(job.said);
    const lang::Outcome<engine::CalendarAnswer> answer =
        engine::ask(**job, engine::CalendarQuestion{});
    Reply reply;
    reply.said.push_back(of_the_price(answer.said));
    if (!answer)
        return reply;
    if (arguments.json)
        reply.document = calendar_json(*answer);
    else
        reply.page = calendar_text(*answer, console.color_out);
    return reply;
}

} // namespace acre::cli
