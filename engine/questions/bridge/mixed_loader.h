// The texts of a job that has something of two others: models from one side, the library from
// another.
#pragma once

#include <string_view>

#include "engine/job/priced_job.h"
#include "engine/job/used_texts.h"

namespace acre::engine {

class MixedLoader : public lang::Loader {
  public:
    MixedLoader(const PricedJob& models, const PricedJob& library, const PricedJob& other)
        : models_(models.used()),
          library_(library.used()),
          other_(other.used()) {}
    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override {
        if (!reference.starts_with("library/")) {
            // The firm is named by the season, which may be that of another side.
            lang::Outcome<lang::Loaded> own = models_.load(kind, reference, from);
            if (own || kind != lang::ReferenceKind::Firm)
                return own;
        }
        // A side that never used this text does not have it; the other one does.
        lang::Outcome<lang::Loaded> outcome = library_.load(kind, reference, from);
        return outcome ? outcome : other_.load(kind, reference, from);
    }

  private:
    UsedTextsLoader models_, library_, other_;
};

} // namespace acre::engine
