// The workbook's library tells its troubles on standard error, in words of its own and with the
// path of a file that no user knows. While this lives they go into memory.
#pragma once

#include <string>

#include "cli/shared/files/descriptor.h"

namespace acre::cli {

class LibraryWords {
  public:
    LibraryWords();
    ~LibraryWords();
    LibraryWords(const LibraryWords&) = delete;
    LibraryWords& operator=(const LibraryWords&) = delete;

    // What the system said, if the library passed it on.
    std::string system_reason() const;

  private:
    Descriptor before_; // standard error; none: nothing is kept from it
    Descriptor memory_;
};

} // namespace acre::cli
