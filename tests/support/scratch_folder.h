// A folder of its own for a test that needs files; gone when the test ends.
#pragma once

#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace acre::tests {

class ScratchFolder {
  public:
    ScratchFolder() {
        std::string path = std::filesystem::temp_directory_path() / "acrewright-test-XXXXXX";
        REQUIRE(::mkdtemp(path.data()) != nullptr);
        path_ = path;
    }
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;

    std::string path(const std::string& name = "") const {
        return name.empty() ? path_.string() : (path_ / name).string();
    }

    // Makes the folders above it too.
    std::string write(const std::string& name, const std::string& text) const {
        std::filesystem::create_directories((path_ / name).parent_path());
        std::ofstream(path_ / name, std::ios::binary) << text;
        return path(name);
    }

  private:
    std::filesystem::path path_;
};

inline std::string file_text(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    REQUIRE_MESSAGE(in.good(), "cannot read " << path);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

} // namespace acre::tests
