#include "cli/editor/settings_json.h"

#include <algorithm>

namespace acre::cli {

namespace {

// Of [{"uri": "file:///…", "name": …}, …]
std::vector<std::string> paths_in(const Json& folders) {
    std::vector<std::string> paths;
    for (const Json& folder : folders)
        if (auto path = path_of(folder.at("uri").get_ref<const std::string&>()))
            paths.push_back(std::move(*path));
    return paths;
}

} // namespace

void take_folders(EditorSettings& settings, const Json& parameters) {
    if (const auto root = parameters.find("rootUri");
        root != parameters.end() && root->is_string() && settings.root.empty())
        settings.root = path_of(root->get_ref<const std::string&>()).value_or(std::string());
    if (const auto folders = parameters.find("workspaceFolders");
        folders != parameters.end() && folders->is_array())
        settings.folders = paths_in(*folders);
    if (settings.root.empty() && !settings.folders.empty())
        settings.root = settings.folders.front();
}

void change_folders(EditorSettings& settings, const Json& event) {
    std::vector<std::string>& folders = settings.folders;
    for (const std::string& folder : paths_in(event.at("removed"))) {
        std::erase(folders, folder);
        if (settings.root == folder)
            settings.root.clear();
    }
    for (std::string& folder : paths_in(event.at("added")))
        folders.push_back(std::move(folder));
    if (settings.root.empty() && !folders.empty())
        settings.root = folders.front();
}

void take_settings(EditorSettings& settings, const Json& said) {
    if (!said.is_object())
        return;
    const auto path = [&](const char* key, std::string& value) {
        const auto found = said.find(key);
        if (found == said.end() || !found->is_string())
            return;
        value = found->get<std::string>();
        if (!value.empty() && value[0] != '/' && !settings.root.empty())
            value = settings.root + "/" + value;
    };
    path("job", settings.job);
    path("models", settings.models);
}

Json watched_files() {
    Json watcher = {{"globPattern", "**/*.{rate,season,values,job,firm,json,geojson}"}};
    return {{"id", "files"},
            {"method", "workspace/didChangeWatchedFiles"},
            {"registerOptions", {{"watchers", Json::array({std::move(watcher)})}}}};
}

} // namespace acre::cli
