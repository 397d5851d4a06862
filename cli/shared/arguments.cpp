#include "cli/shared/arguments.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <functional>

#include <CLI/CLI.hpp>

#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/diag/suggest.h"

namespace acre::cli {

namespace {

constexpr std::size_t help_width = 80;
constexpr std::size_t help_column = 24;

// Name of an option as it was typed, up to its value.
std::string_view option_word(std::string_view word) {
    return word.substr(0, word.find('='));
}

} // namespace

struct Arguments::Impl {
    std::string command;
    Usage usage;
    std::vector<std::string> option_names{"--help"};
    std::vector<std::string> flag_names;
    // Every value is read as text; what a text must be beyond that is checked here, in our own
    // words.
    std::vector<std::function<std::string()>> checks;
    std::vector<std::pair<CLI::Option*, std::string>> required;
    CLI::App app;

    Impl() { app.set_help_flag(); }

    CLI::Option* add_option(std::string_view name, std::string_view value_name,
                            std::string_view help, std::vector<std::string>& values) {
        usage.options.push_back({std::string(name), std::string(value_name), std::string(help)});
        option_names.emplace_back(name);
        return app.add_option(std::string(name), values)
            ->type_size(1)
            ->expected(1)
            ->allow_extra_args(false)
            ->take_all();
    }

    template <class Number>
    void add_number(std::string_view name, std::string_view value_name, std::string_view help,
                    Number& value) {
        auto texts = std::make_shared<std::vector<std::string>>();
        add_option(name, value_name, help, *texts);
        checks.push_back([texts, &value, name = std::string(name)]() -> std::string {
            for (const std::string& text : *texts) {
                const auto [end, error] =
                    std::from_chars(text.data(), text.data() + text.size(), value);
                if (error != std::errc() || end != text.data() + text.size()) {
                    const char* kind =
                        std::is_floating_point_v<Number> ? "a number" : "a whole number, 0 or more";
                    return "`" + name + "` takes " + kind + ", not `" + text + "`";
                }
            }
            return {};
        });
    }

    // `--book quote-book` of a command that takes its BOOK as it is.
    std::string goes_alone(const std::string& word) const {
        std::string name(option_word(word));
        name.erase(0, std::min<std::size_t>(2, name.size()));
        for (const UsageRow& row : usage.positionals)
            if (std::equal(row.name.begin(), row.name.end(), name.begin(), name.end(),
                           [](unsigned char a, unsigned char b) { return std::tolower(a) == b; }))
                return row.name;
        return {};
    }

    std::string unknown(const std::string& word) const {
        if (word.size() < 2 || word[0] != '-')
            return "unexpected argument `" + word + "`";
        std::string text =
            "`" + command + "` has no option `" + std::string(option_word(word)) + "`";
        if (const std::string name = goes_alone(word); !name.empty())
            return text + ": " + name + " goes without it";
        const std::vector<std::string_view> names(option_names.begin(), option_names.end());
        if (const auto near = lang::near_names(option_word(word), names, 1); !near.empty())
            text.append("; did you mean `").append(near[0]).append("`?");
        return text;
    }
};

Arguments::Arguments(std::string_view command, std::string_view about, std::string_view example)
    : impl_(std::make_unique<Impl>()) {
    impl_->command = command;
    impl_->usage.about = about;
    impl_->usage.example = example;
    impl_->usage.line = "acrewright " + impl_->command;
}
Arguments::~Arguments() = default;

void Arguments::positional(std::string_view name, std::string_view help, std::string& value,
                           bool required) {
    impl_->usage.line += required ? " " + std::string(name) : " [" + std::string(name) + "]";
    impl_->usage.positionals.push_back({std::string(name), {}, std::string(help)});
    auto* option = impl_->app.add_option(std::string(name), value);
    if (required)
        impl_->required.emplace_back(option, name);
}

void Arguments::positionals(std::string_view name, std::string_view help,
                            std::vector<std::string>& values, bool required) {
    const std::string many = std::string(name) + "...";
    impl_->usage.line += required ? " " + many : " [" + many + "]";
    impl_->usage.positionals.push_back({many, {}, std::string(help)});
    auto* option = impl_->app.add_option(std::string(name), values);
    if (required)
        impl_->required.emplace_back(option, name);
}

void Arguments::flag(std::string_view option, std::string_view help, bool& value) {
    impl_->usage.options.push_back({std::string(option), {}, std::string(help)});
    impl_->option_names.emplace_back(option);
    impl_->flag_names.emplace_back(option);
    impl_->app.add_flag(std::string(option), value)->disable_flag_override();
}

void Arguments::option(std::string_view option, std::string_view value_name, std::string_view help,
                       std::string& value) {
    auto texts = std::make_shared<std::vector<std::string>>();
    impl_->add_option(option, value_name, help, *texts);
    impl_->checks.push_back([texts, &value, name = std::string(option)]() -> std::string {
        if (texts->size() > 1)
            return "`" + name + "` is given twice";
        if (!texts->empty())
            value = texts->front();
        return {};
    });
}

void Arguments::option(std::string_view option, std::string_view value_name, std::string_view help,
                       std::vector<std::string>& values) {
    impl_->add_option(option, value_name, help, values);
}

void Arguments::option(std::string_view option, std::string_view value_name, std::string_view help,
                       std::uint32_t& value) {
    impl_->add_number(option, value_name, help, value);
}

void Arguments::option(std::string_view option, std::string_view value_name, std::string_view help,
                       std::uint64_t& value) {
    impl_->add_number(option, value_name, help, value);
}

void Arguments::option(std::string_view option, std::string_view value_name, std::string_view help,
                       double& value) {
    impl_->add_number(option, value_name, help, value);
}

std::optional<Reply> Arguments::read(std::span<const std::string> words) {
    const auto options_end = std::find(words.begin(), words.end(), "--");
    if (std::any_of(words.begin(), options_end,
                    [](const std::string& word) { return word == "--help" || word == "-h"; })) {
        Reply shown;
        Usage usage = impl_->usage;
        usage.options.push_back({"--help", {}, "this page"});
        shown.usage = std::make_shared<const Usage>(std::move(usage));
        shown.page = help();
        return shown;
    }
    std::string fault;
    try {
        impl_->app.allow_extras();
        std::vector<std::string> reversed(words.rbegin(),
                                          words.rend()); // as the library wants them
        impl_->app.parse(std::move(reversed));
        for (const std::string& extra : impl_->app.remaining())
            if (fault.empty() && extra != "--")
                fault = impl_->unknown(extra);
        for (const auto& [option, name] : impl_->required)
            if (fault.empty() && option->count() == 0)
                fault = "`" + impl_->command + "` needs " +
                        (name.find_first_of("AEIO") == 0 ? "an " : "a ") + name;
        for (const auto& check : impl_->checks)
            if (fault.empty())
                fault = check();
    } catch (const CLI::ArgumentMismatch& mismatch) {
        const std::string_view what = mismatch.what();
        fault = "`" + std::string(what.substr(0, what.find_first_of(": "))) + "` needs a value";
        for (const std::string& word : words) {
            const std::string name(option_word(word));
            if (name != word && std::find(impl_->flag_names.begin(), impl_->flag_names.end(),
                                          name) != impl_->flag_names.end())
                fault = "`" + name + "` takes no value";
        }
    } catch (const CLI::ParseError& error) {
        fault = error.what();
    }
    if (fault.empty())
        return std::nullopt;
    return lang::placeless(lang::Code::C002, fault, {"usage: " + impl_->usage.line + " [OPTIONS]"},
                           {"`acrewright " + impl_->command + " --help` lists its options"});
}

std::string Arguments::help() const {
    std::string text = "usage: " + impl_->usage.line + " [OPTIONS]\n\n" +
                       wrap(impl_->usage.about, help_width) + "\n";
    const auto list = [&](const std::vector<UsageRow>& rows) {
        text += '\n';
        for (const UsageRow& row : rows) {
            const std::string left = "  " + row.name + (row.value.empty() ? "" : " " + row.value);
            const bool fits = left.size() + 2 <= help_column;
            text += fits ? left + std::string(help_column - left.size(), ' ')
                         : left + "\n" + std::string(help_column, ' ');
            text += wrap(row.help, help_width, help_column) + "\n";
        }
    };
    if (!impl_->usage.positionals.empty())
        list(impl_->usage.positionals);
    auto options = impl_->usage.options;
    options.push_back({"--help", {}, "this page"});
    list(options);
    return text + "\nexample:\n  " + impl_->usage.example + "\n";
}

} // namespace acre::cli
