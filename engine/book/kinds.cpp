#include "engine/book/kinds.h"

namespace acre::engine {

std::string_view name_of(lang::Layer layer) {
    switch (layer) {
    case lang::Layer::Model:
        return "model";
    case lang::Layer::Binding:
        return "use";
    case lang::Layer::Season:
        return "season";
    case lang::Layer::Values:
        return "values";
    case lang::Layer::Job:
        return "job";
    case lang::Layer::Field:
        return "field";
    case lang::Layer::Entry:
        return "entry";
    case lang::Layer::Option:
        return "option";
    case lang::Layer::CommandLine:
        return "command line";
    }
    return {};
}

} // namespace acre::engine
