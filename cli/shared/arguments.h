// The command line of one command: declare what it takes, then read. The only place that knows the
// parsing library.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/reply.h"

namespace acre::cli {

class Arguments {
  public:
    // `about`: one or two sentences for --help. `example`: one real command line; a test runs it.
    Arguments(std::string_view command, std::string_view about, std::string_view example);
    ~Arguments();
    Arguments(const Arguments&) = delete;
    Arguments& operator=(const Arguments&) = delete;

    // The variables must outlive read(). `name` as shown: "JOB". Options begin with "--";
    // `value_name` as shown: "NAME=VALUE".
    void positional(std::string_view name, std::string_view help, std::string& value,
                    bool required = true);
    void positionals(std::string_view name, std::string_view help, std::vector<std::string>& values,
                     bool required = true);
    void flag(std::string_view option, std::string_view help, bool& value);
    void option(std::string_view option, std::string_view value_name, std::string_view help,
                std::string& value);
    void option(std::string_view option, std::string_view value_name, std::string_view help,
                std::vector<std::string>& values); // may repeat
    void option(std::string_view option, std::string_view value_name, std::string_view help,
                std::uint32_t& value);
    void option(std::string_view option, std::string_view value_name, std::string_view help,
                std::uint64_t& value);
    void option(std::string_view option, std::string_view value_name, std::string_view help,
                double& value);

    // Empty: go on. Otherwise --help in its page, or what is wrong with the command line (C002).
    std::optional<Reply> read(std::span<const std::string> words);

    std::string help() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace acre::cli
