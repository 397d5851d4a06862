#include "engine/book/members.h"

#include "engine/book/json.h"

namespace acre::engine {
namespace {

const Json* member_of(const Json& object, const char* member) {
    if (!object.is_object())
        return nullptr;
    const auto it = object.find(member);
    return it == object.end() ? nullptr : &*it;
}

} // namespace

std::string text_at(const Json& object, const char* member) {
    const Json* found = member_of(object, member);
    return found != nullptr && found->is_string() ? found->get<std::string>() : std::string();
}

double number_at(const Json& object, const char* member, double otherwise) {
    const Json* found = member_of(object, member);
    return found != nullptr && found->is_number() ? found->get<double>() : otherwise;
}

std::int64_t whole_at(const Json& object, const char* member) {
    const Json* found = member_of(object, member);
    return found != nullptr && found->is_number_integer() ? found->get<std::int64_t>() : 0;
}

const Json& list_at(const Json& object, const char* member) {
    static const Json empty = Json::array();
    const Json* found = member_of(object, member);
    return found != nullptr && found->is_array() ? *found : empty;
}

const Json& object_at(const Json& object, const char* member) {
    static const Json empty = Json::object();
    const Json* found = member_of(object, member);
    return found != nullptr && found->is_object() ? *found : empty;
}

} // namespace acre::engine
