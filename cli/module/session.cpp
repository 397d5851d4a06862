#include "cli/module/session.h"

#include <exception>
#include <optional>

#include "cli/module/questions.h"
#include "cli/shared/json/reply_json.h"
#include "cli/shared/one_value.h"
#include "engine/questions/moved.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_kept = 24;

std::optional<lang::Diagnostic> more_than_values(const JobAsked& asked) {
    for (const auto& [name, value] : asked.sets)
        if (auto more = more_than_a_value(name, value))
            return more;
    return std::nullopt;
}

std::string key_of(const JobAsked& asked) {
    std::string key = std::to_string(asked.job) + '\n' + asked.option + '\n' + asked.season;
    for (const auto& [name, value] : asked.sets)
        key.append("\n").append(name).append("=").append(value);
    return key;
}

lang::Diagnostic no_such(const char* what, const std::string& name) {
    return lang::placeless(lang::Code::F701, std::string("no ") + what + " `" + name + "` here");
}

// By the ending of its name.
lang::FileKind kind_of(std::string_view name) {
    return name.ends_with(".rate") ? lang::FileKind::Model : lang::FileKind::Job;
}

// An option without one of its own is judged by the job's: then it is refused, or it has no answer.
const PageLayout* layout_of(const PageJob& job, const std::string& option) {
    for (const PageLayout& layout : job.layouts)
        if (layout.option == option)
            return &layout;
    return job.layouts.empty() ? nullptr : &job.layouts.front();
}

Reply answered_or_not(Session& session, std::string_view question) {
    if (question.size() > max_question_bytes)
        return lang::placeless(lang::Code::C005,
                               "the question is longer than the limit of 16,777,216 bytes");
    return reply_to(session, question);
}

} // namespace

std::string Session::answer(std::string_view question) {
    std::string what;
    try {
        return reply_json(answered_or_not(*this, question));
    } catch (const std::bad_alloc&) {
        what = "out of memory";
    } catch (const std::exception& error) {
        what = error.what();
    }
    return reply_json(lang::placeless(lang::Code::P001, "internal error: " + what));
}

void Session::take(PageTexts texts) {
    texts_ = std::move(texts);
    kept_.clear();
}

bool Session::change_text(const std::string& name, std::string text) {
    const auto place = texts_.used.texts.find(name);
    if (place == texts_.used.texts.end())
        return false;
    place->second = std::move(text);
    kept_.clear();
    return true;
}

lang::Outcome<lang::Request> Session::request_of(const JobAsked& asked) {
    if (asked.job >= texts_.jobs.size())
        return no_such("job", std::to_string(asked.job));
    if (asked.malformed)
        return lang::placeless(lang::Code::C003, "`sets` is a list of a name and a value each");
    if (auto more = more_than_values(asked))
        return std::move(*more);
    const PageJob& job = texts_.jobs[asked.job];
    lang::Request request;
    request.every_function = false;
    request.name = job.name;
    request.text = texts_.used.texts[job.name];
    request.kind = kind_of(job.name);
    request.option = asked.option;
    request.sets = asked.sets;
    if (const PageLayout* layout = layout_of(job, asked.option))
        request.field_sets = layout->sets;
    if (asked.season.empty())
        return request;
    const auto season = texts_.used.texts.find(asked.season);
    if (season == texts_.used.texts.end())
        return no_such("season", asked.season);
    request.season = lang::Loaded{season->first, season->second};
    return request;
}

lang::Outcome<engine::Job> Session::make(const JobAsked& asked) {
    const lang::Outcome<lang::Request> request = request_of(asked);
    if (!request)
        return request.said;
    engine::UsedTextsLoader loader(texts_.used, trees_.get());
    return engine::make_job(*request, loader);
}

lang::Outcome<engine::Job> Session::open(const JobAsked& asked) {
    if (asked.malformed)
        return make(asked);
    const std::string key = key_of(asked);
    if (const auto kept = kept_.find(key); kept != kept_.end())
        return kept->second;
    lang::Outcome<engine::Job> job = make(asked);
    const PageLayout* layout =
        asked.job < texts_.jobs.size() ? layout_of(texts_.jobs[asked.job], asked.option) : nullptr;
    if (job && layout != nullptr && !engine::laid_alike(layout->laid_by, engine::laid_by(**job)))
        return lang::placeless(lang::Code::Q005,
                               "the field would be laid out otherwise with these values", {},
                               {"change them in the job, and write the page again"});
    if (kept_.size() >= most_kept)
        kept_.clear();
    return kept_.emplace(key, std::move(job)).first->second;
}

lang::Outcome<engine::Job> Session::move(const JobAsked& asked) {
    if (asked.malformed || asked.sets.empty() || more_than_values(asked) ||
        kept_.contains(key_of(asked)))
        return open(asked);
    JobAsked as_written = asked;
    as_written.sets.clear();
    const lang::Outcome<engine::Job> before = open(as_written);
    if (before)
        if (engine::Job after = engine::moved(**before, asked.sets))
            return {std::move(after), before.said};
    return open(asked);
}

} // namespace acre::cli
