// learn: what the finished jobs of a book say together about the figures of a season, and a season
// that has them.
#include <optional>
#include <string>

#include "cli/command.h"
#include "cli/learn/learn_page.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "engine/book/again.h"
#include "engine/learning/proposal.h"
#include "engine/questions/estimate.h"

namespace acre::cli {
namespace {

struct LearnArguments {
    std::string book = "quote-book", season, write;
    bool json = false;
};

// The finished jobs as the season prices them. A job that it cannot price is left out.
class Learning {
  public:
    explicit Learning(engine::SeasonText season) : season_(std::move(season)) {
        beside_.share(trees_);
    }

    std::optional<lang::Said> take(const Finished& finished) {
        const engine::QuoteRecord& quote = finished.work.quote;
        const lang::Outcome<engine::Job> job = engine::job_with_season(quote, season_, beside_);
        if (!job)
            return leave_out(finished.number, job.said);
        if (const auto now = engine::estimate(**job); !now)
            return leave_out(finished.number, now.said);
        lang::Outcome<engine::FinishedJob> one = engine::finished_job(
            finished.number, **job, quote.counted, finished.log, assumptions_, work_);
        if (!one)
            return std::move(one.said);
        jobs_.push_back(std::move(*one));
        money_ = quote.money;
        return std::nullopt;
    }

    LearnPage page(std::vector<LeftOut> left_out) {
        lang::show_money(money_);
        left_out.insert(left_out.end(), unpriced_.begin(), unpriced_.end());
        return {season_.name, {}, engine::learn(jobs_, assumptions_), std::move(left_out)};
    }
    bool empty() const { return jobs_.empty(); }

  private:
    engine::SeasonText season_;
    lang::KeptTrees trees_;
    FileLoader beside_;
    engine::Assumptions assumptions_;
    std::vector<engine::FinishedJob> jobs_;
    std::vector<LeftOut> unpriced_;
    lang::Currency money_;
    double work_ = 0;

    std::optional<lang::Said> leave_out(const std::string& number, const lang::Said& said) {
        std::string why = "no price";
        for (const lang::Diagnostic& one : said.diagnostics.all())
            if (one.code == lang::Code::F702) {
                return said; // the disk's failing, not the season's
            } else if (one.severity() == lang::Severity::Error) {
                why = one.title;
                break;
            }
        unpriced_.push_back({number, "this season does not price it: " + why});
        return std::nullopt;
    }
};

Reply learn(const LearnArguments& arguments, bool color) {
    if (arguments.season.empty())
        return lang::placeless(lang::Code::C004, "`learn` needs the season: --season FILE");
    lang::Outcome<std::string> text = read_named_file(arguments.season);
    if (!text)
        return std::move(text.said);
    // A season that cannot be read says so once, not for every job.
    if (auto sound = engine::proposed_season(arguments.season, *text, {}); !sound)
        return std::move(sound.said);
    const Book book(arguments.book);
    const lang::Outcome<BookState> state = book.state();
    if (!state)
        return state.said;
    Learning learning({arguments.season, *text});
    lang::Outcome<std::vector<LeftOut>> left_out = each_finished(
        book, *state, [&](const Finished& finished) { return learning.take(finished); });
    if (!left_out)
        return std::move(left_out.said);
    LearnPage page = learning.page(std::move(*left_out));
    Reply reply;
    if (!arguments.write.empty()) {
        if (learning.empty())
            return lang::placeless(
                lang::Code::R002, "the book has no finished job to learn from", {},
                {"`acrewright mark NUMBER finished --log FILE` closes a job with its log"});
        const auto proposal = engine::proposed_season(arguments.season, *text, page.answer);
        if (!save_new(arguments.write, *proposal,
                      "a season is never written over: choose another name", reply))
            return reply;
        page.written = arguments.write;
    }
    if (arguments.json)
        reply.document = learn_json(page);
    else
        reply.page = learn_text(page, color);
    return reply;
}

} // namespace

Reply learn_command(Words words, Console& console) {
    LearnArguments arguments;
    Arguments line("learn",
                   "Learns from all finished jobs of a book together what a season assumes: each "
                   "figure with an interval, near the season's own where there are few jobs. "
                   "With --write it proposes a whole season, for people to read first.",
                   "acrewright learn --book examples/quote-book --season examples/2027.season");
    line.option("--book", "FOLDER", "the quote book (quote-book)", arguments.book);
    line.option("--season", "FILE", "the season that assumes", arguments.season);
    line.option("--write", "FILE", "writes the proposal as a new season file, beside the old one",
                arguments.write);
    line.flag("--json", "the result as JSON, for other programs", arguments.json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    return learn(arguments, console.color_out);
}

} // namespace acre::cli
