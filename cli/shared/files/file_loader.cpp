#include "cli/shared/files/file_loader.h"

#include <algorithm>
#include <filesystem>
#include <set>
#include <system_error>

#include <sys/stat.h>

#include "cli/shared/files/confined.h"
#include "cli/shared/files/read_text.h"
#include "models/library_texts.h"

namespace acre::cli {

namespace {

using lang::Code;
using lang::ReferenceKind;

constexpr int most_folders_above = 40;
constexpr std::size_t most_open_folders = 64; // of the files that a program may hold open

bool is_folder(const std::string& path) {
    struct stat about = {};
    return ::stat(path.c_str(), &about) == 0 && S_ISDIR(about.st_mode);
}

const models::LibraryText* find_built_in(std::string_view reference) {
    for (const models::LibraryText& text : models::library_texts())
        if (text.reference == reference)
            return &text;
    return nullptr;
}

std::string_view ending_of(ReferenceKind kind) {
    switch (kind) {
    case ReferenceKind::Season:
        return ".season";
    case ReferenceKind::Values:
        return ".values";
    case ReferenceKind::Firm:
        return ".firm";
    default:
        return ".rate";
    }
}

// "a, b and c"
std::string listing(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        text += i == 0 ? "" : i + 1 == words.size() ? " or " : ", ";
        text += words[i];
    }
    return text;
}

} // namespace

std::string built_in_name(std::string_view reference) {
    return std::string(built_in_mark) + std::string(reference) + ".rate";
}

bool file_kind(std::string_view path, lang::FileKind& kind) {
    const auto ends = [&](std::string_view ending) {
        return path.size() > ending.size() && path.ends_with(ending);
    };
    if (ends(".rate"))
        kind = lang::FileKind::Model;
    else if (ends(".season"))
        kind = lang::FileKind::Season;
    else if (ends(".values"))
        kind = lang::FileKind::Values;
    else if (ends(".job"))
        kind = lang::FileKind::Job;
    else if (ends(".firm"))
        kind = lang::FileKind::Firm;
    else
        return false;
    return true;
}

FileLoader::FileLoader(std::string models_folder, std::string installed_folder)
    : models_folder_(std::move(models_folder)),
      installed_folder_(std::move(installed_folder)) {}

void FileLoader::know(const std::string& path) {
    if (std::string real = real_path(path); !real.empty())
        name_of_.try_emplace(std::move(real), path);
}

std::string FileLoader::installed_models() {
    const std::string program = real_path("/proc/self/exe");
    if (program.empty())
        return {};
    const std::string folder = folder_above(folder_of(program)) + "/share/acrewright/models";
    return is_folder(folder) ? folder : "";
}

const std::vector<std::string>& FileLoader::folders(ReferenceKind kind, std::string_view from) {
    const bool built_in = from.starts_with(built_in_mark);
    const auto [known, is_new] =
        folders_.try_emplace({kind, built_in ? std::string(built_in_mark) : folder_of(from)});
    std::vector<std::string>& list = known->second;
    if (!is_new)
        return list;
    const auto add = [&](std::string folder) {
        if (std::find(list.begin(), list.end(), folder) == list.end())
            list.push_back(std::move(folder));
    };
    if (!built_in) {
        std::string folder = folder_of(from);
        add(folder);
        std::vector<std::string> above; // the folders up to the one with the models
        for (int i = 0; i < most_folders_above; ++i) {
            above.push_back(folder);
            const std::string seasons = joined(folder, "seasons");
            const std::string models = joined(folder, "models");
            const bool has_seasons = kind == ReferenceKind::Season && is_folder(seasons);
            const bool has_models = is_folder(models);
            if (kind == ReferenceKind::Firm && (is_folder(seasons) || has_models))
                std::for_each(above.begin(), above.end(), add);
            if (has_seasons)
                add(seasons);
            if (has_models)
                add(models);
            if (has_seasons || has_models || folder == "/")
                break;
            folder = folder_above(folder);
        }
    }
    if (!models_folder_.empty())
        add(models_folder_);
    return list;
}

lang::Outcome<FileLoader::Found> FileLoader::read_below(const std::string& folder,
                                                        std::string_view reference,
                                                        ReferenceKind kind, std::size_t limit) {
    if (opened_.size() == most_open_folders)
        opened_.clear();
    const Folder& in = opened_.try_emplace(folder, folder).first->second;
    Descriptor file;
    lang::Outcome<std::string> real = in.open(reference, kind, file);
    if (!real)
        return std::move(real.said);
    lang::Outcome<std::string> text = read_open(file, *real, false, limit);
    if (!text) {
        const lang::Diagnostic& why = text.said.diagnostics.all().front();
        return lang::cannot_load(why.code, kind, reference,
                                 why.notes.empty() ? "" : why.notes.front());
    }
    return Found{std::move(*real), std::move(*text)};
}

FileLoader::Tried FileLoader::look_in(const std::string& folder, std::string_view file,
                                      ReferenceKind kind) {
    lang::Outcome<Found> found = read_below(folder, file, kind, lang::max_file_bytes);
    if (!found)
        return std::move(found.said);
    return lang::Loaded{name_of_.try_emplace(found->real, joined(folder, file)).first->second,
                        std::move(found->text)};
}

const FileLoader::Tried& FileLoader::try_folder(const std::string& folder, std::string_view file,
                                                ReferenceKind kind) {
    const auto [known, is_new] = tried_.try_emplace(joined(folder, file));
    if (is_new)
        known->second = look_in(folder, file, kind);
    return known->second;
}

lang::Outcome<lang::Loaded> FileLoader::boundary(std::string_view reference,
                                                 std::string_view from) {
    lang::Outcome<Found> found =
        read_below(folder_of(from), reference, ReferenceKind::Boundary, max_data_bytes);
    if (!found)
        return std::move(found.said);
    return lang::Loaded{joined(folder_of(from), reference), std::move(found->text)};
}

// Files of the same name in folders that come later, where they say something else.
std::vector<std::string> FileLoader::passed_over(const std::vector<std::string>& folders,
                                                 std::size_t first, const lang::Loaded& loaded,
                                                 std::string_view file, ReferenceKind kind) {
    std::vector<std::string> hidden;
    for (std::size_t i = first; i < folders.size(); ++i)
        if (const Tried& other = try_folder(folders[i], file, kind);
            other && other->name != loaded.name && other->text != loaded.text)
            hidden.push_back(other->name);
    return hidden;
}

std::vector<std::string> FileLoader::references(ReferenceKind kind, std::string_view from) {
    constexpr std::size_t most = 1'000;
    const std::string_view ending = ending_of(kind);
    std::set<std::string> names;
    if (kind == ReferenceKind::Boundary)
        return {};
    std::vector<std::string> searched = folders(kind, from);
    if (kind == ReferenceKind::Model && !installed_folder_.empty())
        searched.push_back(installed_folder_);
    for (const std::string& folder : searched) {
        // Models are there for every job; a season among them may be anybody's.
        if (kind == ReferenceKind::Season && folder != folder_of(from) &&
            folder.substr(folder.rfind('/') + 1) != "seasons")
            continue;
        std::error_code failed;
        for (std::filesystem::directory_iterator entry(folder.empty() ? "." : folder, failed), end;
             !failed && entry != end && names.size() < most; entry.increment(failed)) {
            const std::string name = entry->path().filename().string();
            if (name.size() > ending.size() && name.ends_with(ending) && name.front() != '.')
                names.insert(name.substr(0, name.size() - ending.size()));
        }
    }
    if (kind == ReferenceKind::Model)
        for (const models::LibraryText& text : models::library_texts())
            if (names.size() < most)
                names.insert(std::string(text.reference));
    return {names.begin(), names.end()};
}

lang::Outcome<lang::Loaded> FileLoader::load(ReferenceKind kind, std::string_view reference,
                                             std::string_view from) {
    if (kind == ReferenceKind::Boundary)
        return boundary(reference, from);
    const std::string_view ending = ending_of(kind);
    const std::string_view stem = reference.ends_with(ending)
                                      ? reference.substr(0, reference.size() - ending.size())
                                      : reference;
    if (!is_confined(stem))
        return lang::cannot_load(Code::F705, kind, reference,
                                 "a reference is a name, or names joined by `/`; it cannot start "
                                 "with `/` or hold `..` or `\\`");
    const auto is_there = [](const Tried& tried) {
        return tried || tried.said.diagnostics.all().front().code != Code::F701;
    };
    const std::string file = std::string(stem) + std::string(ending);
    std::vector<std::string> searched = folders(kind, from);
    for (std::size_t i = 0; i < searched.size(); ++i)
        if (Tried tried = try_folder(searched[i], file, kind); is_there(tried)) {
            if (tried)
                tried->hidden = passed_over(searched, i + 1, *tried, file, kind);
            return tried;
        }
    if (const auto* text = kind == ReferenceKind::Model ? find_built_in(stem) : nullptr;
        text != nullptr)
        return lang::Loaded{built_in_name(stem), std::string(text->text)};
    if (!installed_folder_.empty())
        if (const Tried& tried = try_folder(installed_folder_, file, kind); is_there(tried))
            return tried;
    for (std::string& folder : searched)
        folder = folder == "." ? "this folder" : "`" + folder + "`";
    if (kind == ReferenceKind::Model)
        searched.emplace_back("the built-in library");
    return lang::cannot_load(Code::F701, kind, reference,
                             "no `" + file + "` in " + listing(searched));
}

} // namespace acre::cli
