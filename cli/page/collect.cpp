#include "cli/page/collect.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "cli/shared/files/file_loader.h"
#include "cli/shared/job.h"
#include "engine/questions/compare/compare.h"

namespace acre::cli {
namespace {

// Asks the loader of files, and keeps what it answered for the page.
class KeepingLoader : public lang::Loader {
  public:
    KeepingLoader(const std::string& models, engine::UsedTexts& used)
        : files_(models),
          used_(used) {}

    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override {
        lang::Outcome<lang::Loaded> loaded = files_.load(kind, reference, from);
        if (loaded && kind != lang::ReferenceKind::Boundary) {
            used_.names[{kind, std::string(reference), std::string(from)}] = loaded->name;
            used_.texts[loaded->name] = loaded->text;
        }
        return loaded;
    }
    std::vector<std::string> references(lang::ReferenceKind kind, std::string_view from) override {
        return files_.references(kind, from);
    }
    void know(const std::string& path) { files_.know(path); }

  private:
    FileLoader files_;
    engine::UsedTexts& used_;
};

// Seasons that lie where the job looks for one: a page compares them, so what each of them names
// goes along.
void keep_seasons(const std::string& path, lang::Request request, KeepingLoader& loader,
                  PageTexts& texts) {
    for (const std::string& reference : loader.references(lang::ReferenceKind::Season, path)) {
        const lang::Outcome<lang::Loaded> season =
            loader.load(lang::ReferenceKind::Season, reference, path);
        if (!season)
            continue;
        request.season = *season;
        (void)engine::make_job(request, loader);
        if (std::find(texts.seasons.begin(), texts.seasons.end(), season->name) ==
            texts.seasons.end())
            texts.seasons.push_back(season->name);
    }
}

void keep_layout(const engine::PricedJob& job, const std::string& option, PageJob& page) {
    if (job.request().field_sets)
        page.layouts.push_back({option, *job.request().field_sets, engine::laid_by(job)});
}

std::vector<OptionPrice> with_options(const engine::PricedJob& job, lang::Request request,
                                      lang::Loader& loader, PageJob& page) {
    std::vector<OptionPrice> prices;
    for (const std::string& option : engine::options_of(job)) {
        request.option = option;
        const lang::Outcome<engine::Job> other = engine::make_job(request, loader);
        if (!other)
            continue;
        keep_layout(**other, option, page);
        if (lang::Outcome<engine::Estimate> estimate = engine::estimate(**other))
            prices.push_back({option, std::move(*estimate)});
    }
    return prices;
}

std::optional<lang::Said> add_job(const std::string& path, const std::string& models,
                                  Collected& all) {
    KeepingLoader loader(models, all.texts.used);
    loader.know(path);
    JobArguments arguments;
    arguments.path = path;
    lang::Outcome<lang::Request> request = request_of(arguments, loader);
    if (!request)
        return std::move(request.said);
    if (request->kind != lang::FileKind::Job)
        return lang::Outcome<int>(
                   lang::placeless(lang::Code::F706, "`" + path + "` is not a .job file"))
            .said;
    all.texts.used.texts[path] = request->text;
    lang::Outcome<engine::Job> job = engine::make_job(*request, loader);
    if (!job)
        return std::move(job.said);
    lang::Outcome<engine::PriceAnswer> price = engine::ask(**job, engine::PriceQuestion{});
    if (!price)
        return std::move(price.said);
    PageJob& page = all.texts.jobs.emplace_back(PageJob{path, {}});
    keep_layout(**job, "", page);
    std::vector<OptionPrice> options = with_options(**job, *request, loader, page);
    keep_seasons(path, std::move(*request), loader, all.texts);
    all.said.push_back(of_the_price(price.said));
    all.jobs.push_back({std::move(*job), std::move(*price), std::move(options)});
    return std::nullopt;
}

} // namespace

lang::Outcome<Collected> collect(const std::vector<std::string>& paths, const std::string& models) {
    lang::Outcome<Collected> all{Collected{}};
    for (const std::string& path : paths)
        if (std::optional<lang::Said> failed = add_job(path, models, *all))
            return std::move(*failed);
    return all;
}

} // namespace acre::cli
