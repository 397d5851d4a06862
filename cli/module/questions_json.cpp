#include <array>
#include <limits>
#include <string>
#include <vector>

#include "cli/bridge/bridge_json.h"
#include "cli/check/check_json.h"
#include "cli/compare/compare_page.h"
#include "cli/explain/explain_json.h"
#include "cli/grid/grid_page.h"
#include "cli/module/givens_json.h"
#include "cli/module/questions.h"
#include "cli/price/price_json.h"
#include "cli/rate_card/card.h"
#include "cli/risk/risk_page.h"
#include "cli/sensitivity/sensitivity_page.h"
#include "cli/shared/json/value.h"
#include "lang/syntax/parse.h"

namespace acre::cli {
namespace {

using lang::Code;
using lang::placeless;

std::string text_at(const Json& json, const char* key) {
    const auto place = json.find(key);
    return place != json.end() && place->is_string() ? place->get<std::string>() : std::string();
}

std::vector<std::string> texts_at(const Json& json, const char* key) {
    std::vector<std::string> texts;
    if (const auto place = json.find(key); place != json.end() && place->is_array())
        for (const Json& one : *place)
            if (one.is_string())
                texts.push_back(one.get<std::string>());
    return texts;
}

double number_at(const Json& json, const char* key, double otherwise) {
    const auto place = json.find(key);
    return place != json.end() && place->is_number() ? place->get<double>() : otherwise;
}

std::size_t count_at(const Json& json, const char* key, std::size_t otherwise) {
    const double number = number_at(json, key, static_cast<double>(otherwise));
    return number >= 0 && number < 1e15 ? static_cast<std::size_t>(number) : otherwise;
}

JobAsked job_at(const Json& json) {
    JobAsked asked;
    // What is no count names no job, and that is told as any other that is not there.
    constexpr std::size_t nobody = std::numeric_limits<std::size_t>::max();
    asked.job = json.contains("job") ? count_at(json, "job", nobody) : 0;
    if (json.contains("job") && !json["job"].is_number())
        asked.job = nobody;
    asked.option = text_at(json, "option");
    asked.season = text_at(json, "season");
    const Json sets = json.value("sets", Json::array());
    asked.malformed = !sets.is_array();
    for (const Json& set : sets) {
        const bool pair =
            set.is_array() && set.size() == 2 && set[0].is_string() && set[1].is_string();
        asked.malformed = asked.malformed || !pair;
        if (pair)
            asked.sets.emplace_back(set[0].get<std::string>(), set[1].get<std::string>());
    }
    return asked;
}

// An answer in its JSON, with what was said; or why there is none.
template <class Answer, class Write>
Reply replied(const lang::Outcome<Answer>& answer, const Write& write) {
    Reply reply(of_the_price(answer.said));
    if (answer)
        reply.document = write(*answer);
    return reply;
}

// {"lines": true}: with `lines` and `givens`, which is not cheap.
Reply price(Session& session, const Json& json) {
    const bool lines = json.value("lines", false);
    const auto job = lines ? session.open(job_at(json)) : session.move(job_at(json));
    return job ? replied(engine::ask(**job, engine::PriceQuestion{lines}),
                         [](const engine::PriceAnswer& answer) { return price_json(answer); })
               : Reply(of_the_price(job.said));
}

Reply givens(Session& session, const Json& json) {
    const auto job = session.open(job_at(json));
    if (!job)
        return of_the_price(job.said);
    Reply reply(of_the_price(job.said));
    reply.document = givens_json(engine::all_givens(**job));
    return reply;
}

// {"line": "price.per_unit", "depth": 3}
Reply explain(Session& session, const Json& json) {
    const auto job = session.open(job_at(json));
    engine::ExplainQuestion question;
    question.line = text_at(json, "line");
    question.depth = static_cast<std::uint32_t>(count_at(json, "depth", question.depth));
    return job ? replied(engine::ask(**job, question),
                         [](const engine::ExplainStep& step) { return explain_json(step); })
               : of_the_price(job.said);
}

// {"line": "cost.total", "deep": false}: slopes and swings alone, without steps, kinks and pairs.
Reply sensitivity(Session& session, const Json& json) {
    const auto job = session.move(job_at(json));
    engine::SensitivityQuestion question;
    question.line = text_at(json, "line");
    if (!json.value("deep", true)) {
        question.nearby = false;
        question.interactions = 0;
    }
    return job ? replied(engine::ask(**job, question), sensitivity_json) : of_the_price(job.said);
}

// {"along": [{"given": "depth", "from": 4, "to": 7, "count": 61}], "lines": ["price.per_unit"]},
// in the unit of the given.
Reply grid(Session& session, const Json& json) {
    const auto job = session.move(job_at(json));
    if (!job)
        return of_the_price(job.said);
    engine::GridQuestion question;
    question.lines = texts_at(json, "lines");
    for (const Json& one : json.value("along", Json::array())) {
        lang::Outcome<std::vector<double>> at = engine::places(
            {number_at(one, "from", 0), number_at(one, "to", 0)}, count_at(one, "count", 41));
        if (!at)
            return std::move(at.said);
        question.along.push_back({text_at(one, "given"), std::move(*at)});
    }
    return replied(engine::ask(**job, question), grid_json);
}

// {"rows": {"given": "depth", "at": [4, 5, 6]}, "columns": …}, in the unit of the given; of a
// choice: which options.
Reply rate_card(Session& session, const Json& json) {
    const auto job = session.move(job_at(json));
    if (!job)
        return of_the_price(job.said);
    engine::CardQuestion question;
    for (const auto& [key, along] :
         {std::pair{"rows", &question.rows}, {"columns", &question.columns}}) {
        const Json one = json.value(key, Json::object());
        along->given = text_at(one, "given");
        for (const Json& place : one.value("at", Json::array()))
            if (place.is_number())
                along->at.push_back(place.get<double>());
    }
    return replied(engine::ask(**job, question), [](const engine::RateCard& card) {
        return card_json({card, {}, {}});
    });
}

// {"options": ["Tree rows, two pulls"], "flip": "row_width",
//  "over": {"given": "run", "from": 300, "to": 2600}}; no options: all of the job.
Reply compare(Session& session, const Json& json) {
    JobAsked asked = job_at(json);
    std::vector<engine::CompareSide> sides;
    const auto add = [&](const std::string& name) {
        const std::string file = asked.job < session.texts().jobs.size()
                                     ? session.texts().jobs[asked.job].name
                                     : std::string();
        sides.push_back({name, file, session.open(asked)});
    };
    add(asked.option.empty() ? "this job" : asked.option);
    std::vector<std::string> options = texts_at(json, "options");
    if (options.empty() && sides[0].job)
        options = engine::options_of(**sides[0].job);
    std::erase(options, asked.option);
    if (auto too_many = engine::too_many_side_by_side(1 + options.size()))
        return std::move(*too_many);
    for (const std::string& option : options) {
        JobAsked other = asked;
        other.option = option;
        sides.push_back({option, sides[0].from, session.open(other)});
        if (auto too_much = engine::too_much_side_by_side(sides))
            return std::move(*too_much);
    }
    engine::CompareQuestion question;
    question.flip = text_at(json, "flip");
    if (const auto over = json.find("over"); over != json.end() && over->is_object())
        question.over = {text_at(*over, "given"),
                         {number_at(*over, "from", 0), number_at(*over, "to", 0)},
                         count_at(*over, "count", 81)};
    lang::Outcome<engine::CompareAnswer> answer = engine::ask(std::move(sides), question);
    if (!answer)
        return std::move(answer.said);
    Reply reply;
    for (const lang::Said& said : answer->told)
        reply.said.push_back(of_the_price(said));
    if (!answer->columns.empty())
        reply.document = compare_json(*answer);
    return reply;
}

// From the job as it is asked for to {"to": {"job": 1, "option": "", "season": "", "sets": []}}.
Reply bridge(Session& session, const Json& json) {
    const Json to = json.value("to", Json::object());
    if (!to.is_object())
        return lang::placeless(lang::Code::C003, "`to` is the other job, as an object");
    const auto before = session.open(job_at(json));
    const auto after = session.open(job_at(to));
    if (!before || !after)
        return of_the_price(before ? after.said : before.said);
    engine::BridgeQuestion question;
    question.before = text_at(json, "called");
    question.after = text_at(to, "called");
    question.total = json.value("total", false);
    return replied(engine::ask(**before, **after, question), bridge_json);
}

// {"trials": 20000, "seed": 1, "line": ""}
Reply risk(Session& session, const Json& json) {
    const auto job = session.move(job_at(json));
    if (!job)
        return of_the_price(job.said);
    engine::RiskQuestion question;
    if (const std::string line = text_at(json, "line"); !line.empty())
        question.lines = {line};
    question.within_effort = true;
    question.trials = count_at(json, "trials", 20'000);
    question.seed = count_at(json, "seed", 1);
    question.share_trials = json.value("shares", true)
                                ? std::max<std::uint64_t>(question.trials / 8, engine::min_trials)
                                : 0;
    question.passed = session.passed();
    return replied(engine::ask(**job, question), risk_json);
}

// {"name": "models/deep-rip.rate"}: what is wrong with a text, or doubtful.
Reply check(Session& session, const Json& json) {
    const std::string name = text_at(json, "name");
    const auto text = session.texts().used.texts.find(name);
    if (text == session.texts().used.texts.end())
        return placeless(Code::F701, "no text `" + name + "` here");
    lang::Request request;
    request.name = name;
    request.text = text->second;
    for (const auto& [ending, kind] : {std::pair{".rate", lang::FileKind::Model},
                                       {".season", lang::FileKind::Season},
                                       {".job", lang::FileKind::Job},
                                       {".values", lang::FileKind::Values},
                                       {".firm", lang::FileKind::Firm}})
        if (name.ends_with(ending))
            request.kind = kind;
    for (const PageJob& job : session.texts().jobs)
        if (job.name == name && !job.layouts.empty())
            request.field_sets = job.layouts.front().sets;
    engine::UsedTextsLoader loader(session.texts().used);
    Reply reply;
    reply.document = check_json({{name, engine::check(request, loader)}});
    return reply;
}

Document taken(const char* schema) {
    return answered({{"schema", schema}});
}

// {"texts": a document of acrewright.page/1}: what all later questions are about.
Reply texts(Session& session, const Json& json) {
    std::optional<PageTexts> read = read_page_texts(json.value("texts", Json()).dump());
    if (!read)
        return placeless(Code::F703, "these are not the texts of a page");
    session.take(std::move(*read));
    Reply reply;
    reply.document = taken("acrewright.texts/1");
    return reply;
}

// {"name": "examples/2027.season", "text": …}: another text in the place of this one.
Reply text(Session& session, const Json& json) {
    const std::string name = text_at(json, "name");
    std::string words = text_at(json, "text");
    if (words.size() > lang::max_file_bytes)
        return lang::cannot_load(Code::S118, lang::ReferenceKind::Model, name, {});
    if (!session.change_text(name, std::move(words)))
        return placeless(Code::F701, "no text `" + name + "` here");
    Reply reply;
    reply.document = taken("acrewright.text/1");
    return reply;
}

struct Question {
    std::string_view name;
    Reply (*reply)(Session& session, const Json& json);
};
constexpr std::array question_table{
    Question{"texts", texts},   Question{"text", text},       Question{"price", price},
    Question{"givens", givens}, Question{"explain", explain}, Question{"sensitivity", sensitivity},
    Question{"grid", grid},     Question{"compare", compare}, Question{"rate-card", rate_card},
    Question{"bridge", bridge}, Question{"risk", risk},       Question{"check", check},
};

} // namespace

Reply reply_to(Session& session, std::string_view question) {
    const Json json = Json::parse(question, nullptr, false);
    const std::string name = json.is_object() ? text_at(json, "ask") : std::string();
    for (const Question& one : question_table)
        if (one.name == name)
            return one.reply(session, json);
    return placeless(Code::C001, "no question named `" + name + "`");
}

} // namespace acre::cli
