#include "cli/editor/workspace.h"

#include <algorithm>
#include <filesystem>
#include <set>
#include <system_error>

#include <unistd.h>

#include "cli/editor/buffer_loader.h"
#include "cli/shared/files/confined.h"
#include "engine/driver.h"
#include "engine/questions/check.h"

namespace acre::cli {

namespace {

constexpr std::size_t most_files = 300; // that are looked through
constexpr std::size_t most_entries = 5'000;
constexpr int deepest_folder = 4;

// The notation's files below a folder; links are not followed.
void list_files(const std::filesystem::path& folder, std::set<std::string>& found) {
    namespace fs = std::filesystem;
    std::error_code error;
    std::size_t entries = 0;
    for (fs::recursive_directory_iterator
             it(folder, fs::directory_options::skip_permission_denied, error),
         end;
         !error && it != end && found.size() < most_files && ++entries < most_entries;
         it.increment(error)) {
        const std::string name = it->path().filename();
        const bool folder_here = it->is_directory(error);
        if (folder_here && (it.depth() >= deepest_folder || name.starts_with('.')))
            it.disable_recursion_pending();
        lang::FileKind kind{};
        if (!folder_here && file_kind(name, kind) && it->is_regular_file(error))
            found.insert(it->path().string());
    }
}

bool is_below(const std::string& path, const std::string& folder) {
    return path.starts_with(folder) &&
           (folder.ends_with('/') || path.substr(folder.size()).starts_with('/'));
}

// Of open texts that are in none of the folders. A model or a season is used by the jobs beside
// the folder that holds it.
std::set<std::string> folders_around(const Documents& documents,
                                     const std::set<std::string>& folders) {
    std::set<std::string> around;
    for (const auto& document : documents.all()) {
        const std::string& path = document.first;
        if (std::any_of(folders.begin(), folders.end(),
                        [&](const std::string& folder) { return is_below(path, folder); }))
            continue;
        const std::string folder = folder_of(path);
        const bool shelf = folder.ends_with("/models") || folder.ends_with("/seasons");
        around.insert(shelf ? folder_above(folder) : folder);
    }
    return around;
}

std::string first_error(const std::vector<lang::Said>& said) {
    for (const lang::Said& one : said)
        for (const lang::Diagnostic& diagnostic : one.diagnostics.all())
            if (diagnostic.severity() == lang::Severity::Error)
                return diagnostic.title;
    return {};
}

} // namespace

std::vector<std::string> Workspace::files() const {
    std::set<std::string> found;
    std::set<std::string> folders(settings.folders.begin(), settings.folders.end());
    if (!settings.root.empty())
        folders.insert(settings.root);
    const std::set<std::string> around = folders_around(documents, folders);
    folders.insert(around.begin(), around.end());
    for (const std::string& folder : folders)
        list_files(folder, found);
    for (const auto& [path, open] : documents.all())
        found.insert(path);
    return {found.begin(), found.end()};
}

std::string Workspace::text_of(const std::string& path) const {
    lang::Outcome<std::string> text = BufferLoader(documents, settings.models).text_of(path);
    return text ? std::move(*text) : std::string();
}

bool Workspace::is_there(const std::string& path) const {
    return documents.find(path) != nullptr || ::access(path.c_str(), R_OK) == 0;
}

namespace {

lang::Outcome<lang::Request> request_at(const std::string& path, const BufferLoader& loader) {
    lang::Request request;
    request.name = path;
    lang::Outcome<std::string> text = loader.text_of(path);
    if (!text)
        return std::move(text.said);
    file_kind(path, request.kind);
    request.text = std::move(*text);
    return request;
}

} // namespace

const std::shared_ptr<const engine::Outline>& Looked::outline() {
    if (const engine::Job& known = job != nullptr ? job : before_; !outline_ && known)
        outline_ =
            std::make_shared<const engine::Outline>(engine::ask(*known, engine::OutlineQuestion{}));
    return outline_;
}

void Looked::keep_known(const Looked& before) {
    if (job != nullptr)
        return;
    before_ = before.job != nullptr ? before.job : before.before_;
    outline_ = before.outline_;
}

bool Looked::names(const std::string& path) const {
    if (job == nullptr)
        return false;
    const lang::SourceMap& sources = job->sources();
    for (lang::FileId id = 0; id < sources.size(); ++id)
        if (sources.file(id).name() == path)
            return true;
    return false;
}

Looked Workspace::look(const std::string& path, const Documents& texts) const {
    Looked looked;
    BufferLoader loader(texts, settings.models, trees_.get());
    lang::Outcome<lang::Request> request = request_at(path, loader);
    if (!request) {
        looked.said.push_back(std::move(request.said));
        return looked;
    }
    engine::CheckAnswer answer = engine::check(*request, loader);
    looked.said = std::move(answer.said);
    looked.whole = answer.whole;
    looked.job = std::move(answer.job);
    return looked;
}

Looked Workspace::glance(const std::string& path, const Documents& texts) const {
    Looked looked;
    BufferLoader loader(texts, settings.models, trees_.get());
    const lang::Outcome<lang::Request> request = request_at(path, loader);
    if (!request || request->kind == lang::FileKind::Season)
        return looked;
    lang::Outcome<engine::Job> job = engine::make_job(*request, loader, engine::Aim::Look);
    looked.said.push_back(std::move(job.said));
    if (job)
        looked.job = *job;
    return looked;
}

Looked& Workspace::looked(const std::string& path) {
    auto& [revision, looked] = looked_[path];
    if (revision != revision_) {
        Looked now = look(path, documents);
        now.keep_known(looked);
        looked = std::move(now);
        revision = revision_;
    }
    return looked;
}

// The setting; the job it was seen in last; an open job that uses it; the first one of the folder.
std::string Workspace::job_for(const std::string& path) {
    if (path.ends_with(".job"))
        return path;
    Chosen& last = job_of_[path];
    if (!settings.job.empty() && looked(settings.job).names(path))
        return settings.job;
    const bool seen = !last.job.empty() && last.job != path && is_there(last.job);
    if (seen && (looked(last.job).names(path) || looked(last.job).job == nullptr))
        return last.job;
    if (last.searched == files_revision_)
        return last.job = path;
    last.searched = files_revision_;
    std::vector<std::string> jobs;
    for (const auto& [open, text] : documents.all())
        jobs.push_back(open);
    for (std::string& file : files())
        jobs.push_back(std::move(file));
    for (const std::string& job : jobs)
        if (job.ends_with(".job") && glance(job, documents).names(path))
            return last.job = job;
    return last.job = path;
}

const Found& Workspace::found_by_itself(const std::string& path) {
    Found& found = found_[path];
    found.own = looked(path).said;
    return found;
}

const Found& Workspace::found(const std::string& path) {
    found_by_itself(path);
    Found& found = found_[path];
    const std::string job = job_for(path);
    found.job = job == path ? std::vector<lang::Said>() : looked(job).said;
    return found;
}

const TextView& Workspace::view(const std::string& path) {
    Kept& kept = views_[path];
    if (kept.revision == revision_)
        return kept.view;
    const std::string job = job_for(path);
    TextView now;
    now.job = job;
    Looked& figures = looked(job);
    now.fresh = figures.job != nullptr;
    now.outline = figures.outline() != nullptr ? figures.outline() : kept.view.outline;
    if (!now.fresh || !figures.whole || now.outline->total.empty())
        now.no_price = first_error(figures.said);
    kept.view = std::move(now);
    kept.revision = revision_;
    return kept.view;
}

} // namespace acre::cli
