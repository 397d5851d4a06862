// The messages about names that mean nothing, or something else than the place calls for.
#pragma once

#include <cstdint>
#include <string_view>

#include "lang/check/resolve/builtins.h"
#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {

// A name whose own statement could not be read: one mistake is told once. `file` is where the name
// is used.
bool lost_to_syntax(const Resolution& r, std::string_view name, FileId file);

void report_unknown_name(Resolution& r, const Where& where, std::string_view name,
                         Span span); // N201, N211
void report_unknown_function(Resolution& r, const Where& where,
                             const ast::Word& name);                // N205, N211
void report_empty_option(Resolution& r, const ast::Option& option); // L825
void report_unknown_option(Resolution& r, ChoiceId choice, std::string_view option,
                           Span span); // N204
void report_call_length(Resolution& r, const Callable& callable, std::uint32_t given,
                        const ast::Word& name); // N206
void report_call_length(Resolution& r, const Builtin& builtin, std::uint32_t given,
                        const ast::Word& name); // N206
void report_read_from_outside(Resolution& r, const Where& where, std::string_view name, Span span,
                              const Found& found); // N215
void report_not_of_list(Resolution& r, std::string_view function, std::string_view argument,
                        Span span, LineId line); // N213

// Functions over a list.
void report_call_over_list(Resolution& r, const Callable& callable, const ast::Call& call,
                           const ast::Each* each);                              // N206
void report_takes_no_list(Resolution& r, const ast::Word& function, Span list); // N206
void report_no_column(Resolution& r, const Callable& callable, std::string_view column,
                      const ast::Word& list);                                          // N219
void report_no_entries_here(Resolution& r, const Where& where, const ast::Word& list); // N219
void report_column_outside(Resolution& r, const Where& where, std::string_view name,
                           Span span); // N215

void report_choice_before(Resolution& r, Span span); // U309
void report_before_outside(Resolution& r, const Where& where, const Found& found,
                           Span span);                     // N218
void report_no_list(Resolution& r, const ast::Word& name); // N217

// The list of which a place would have to say an entry: "block".
std::string list_name(const Resolution& r, const Found& found, const Where& where);

// "field_capacity(speed : mi/h, width : ft) : ac/h"
std::string signature_of(const Resolution& r, const Callable& callable);

} // namespace acre::lang::resolving
