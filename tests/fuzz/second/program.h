// What the texts of a job declare, gathered from their syntax trees: the models in use, what each
// declares under which name, what the job sets. Names are looked up here, not by the program.
#pragma once

#include <deque>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lang/compile.h"
#include "lang/loader.h"
#include "lang/syntax/ast.h"
#include "tests/fuzz/second/units.h"

namespace acre::fuzz::second {

using lang::ast::ExprId;
using lang::ast::Module;

struct Formula {
    const Module* module = nullptr;
    ExprId at = lang::ast::none;
};

struct Instance;

// One name of one model. `each`: the list of its part, empty outside of such parts.
struct Declared {
    enum class What { Given, Line, Rate, Quantity, Amount, Count, EventAmount, EventMoney } what;
    const Instance* in = nullptr;
    const lang::ast::Statement* statement = nullptr;
    std::string name, each;
    bool beyond = false; // of a part that this reader does not follow
};

// A model in use. The job's own has no prefix.
struct Instance {
    const Module* module = nullptr;
    std::string prefix;                                       // "crawler."
    std::map<std::string, const Instance*, std::less<>> used; // by the name in this model
    std::map<std::string, Declared, std::less<>> names;
    // Of a copy with values of its own:
    std::map<std::string, Formula, std::less<>> with;
    const Instance* user = nullptr;
    const Instance* shared = nullptr; // what it starts from
    bool beyond = false;              // whose names this reader is not sure of
    std::string part;                 // of the job's own model, whose `use` it is
};

struct Setting {
    std::string name; // as the job's lines are called: "north.area"
    Formula value;
};

class Program {
  public:
    Program(const lang::Request& request, lang::Loader& loader);

    bool beyond() const { return beyond_; } // something here is not read
    const Instance& own() const { return *own_; }
    const std::deque<Instance>& instances() const { return instances_; }
    const std::vector<std::string>& entries(std::string_view list) const;
    bool is_list(std::string_view name) const { return lists_.count(std::string(name)) != 0; }
    const Setting* last_setting(std::string_view name, std::string_view in_every_entry) const;
    std::string_view text(lang::Span span) const { return sources_.text(span); }

    Units units;
    struct Named { // a table or a define
        const Module* module = nullptr;
        const lang::ast::Statement* statement = nullptr;
        bool twice = false;
    };
    std::map<std::string, Named, std::less<>> functions;

  private:
    const Module* module(std::string_view name, std::string text, lang::FileKind kind);
    Instance* use_shared(std::string_view path, const Instance& user);
    void fill(Instance& instance);
    void use(Instance& instance, const lang::ast::Use& use, bool in_part_each);
    void declare(Instance& instance, const lang::ast::Statement& statement, std::string each,
                 bool beyond);
    void own_kinds(const Module& module);
    void read_job(const Module& job, const lang::Request& request, lang::Loader& loader);
    void read_settings(const Module& module);
    bool holds(const lang::ast::Set& set) const;
    void add_sets(const Module& module, const std::vector<lang::ast::Set>& sets,
                  const std::string& prefix);

    lang::Loader& loader_;
    lang::SourceMap sources_;
    lang::Diagnostics said_;
    std::deque<Module> modules_;
    std::map<std::string, const Module*> models_; // by path
    std::deque<Instance> instances_;
    std::map<std::string, Instance*, std::less<>> shared_; // by path
    std::map<std::string, std::vector<std::string>> lists_;
    std::vector<Setting> settings_;       // the last of a name is in force
    std::optional<lang::ast::Date> date_; // of the job
    Instance* own_ = nullptr;
    bool beyond_ = false;
};

} // namespace acre::fuzz::second
