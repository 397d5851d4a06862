// Everything that changes a disk, so that a fault is met in one place: what the system interrupts
// is done again, what it writes by halves is written on, what it refuses comes back as its reason.
// A power cut leaves the old state or the new one, if the steps are taken in this order:
// write_beside, then move_over or take_name, then flush_folder, then say that it is done.
//
// Each function returns the system's reason, or nothing when all is done.
#pragma once

#include <chrono>
#include <csignal>
#include <string>
#include <string_view>

#include <sys/types.h>

#include "cli/shared/files/descriptor.h"

namespace acre::cli {

// What a new file may be: no wider than the user's mask says, and no wider than its folder, since
// costs and margins are in it.
mode_t mode_of_new(const std::string& folder, mode_t wanted);

// A new file in `folder`, whole and on the disk, under a name of its own (".acrewright-" and six
// more) that is no file of the user's. On a fault nothing is left of it. A killed program may leave
// one; one older than a day is removed here, unless a caller that writes many asks to look once.
enum class Leftovers { Remove, Leave };
std::string write_beside(const std::string& folder, std::string_view text, mode_t mode,
                         std::string& path, Leftovers leftovers = Leftovers::Remove);

// `path`, as write_beside made it, gets the name `target` and loses its own: in place of what stood
// there, or only if the name is free
// (`taken`: it is not, and nothing was changed). On a fault `path` is removed.
std::string move_over(const std::string& path, const std::string& target);
std::string take_name(const std::string& path, const std::string& target, bool& taken);

// A new name outlives a power cut only once its folder is on the disk. Folders that cannot be
// flushed (EINVAL) count as flushed: there the name is all there is.
std::string flush_folder(const std::string& folder);

// Done too when the folder is there. Its own name is not flushed.
std::string make_folder(const std::string& folder);

// Takes back what a run made before a fault: a file, or a folder that is empty. Done too when
// nothing is there.
std::string remove_made(const std::string& path);

// Opens a regular file and nothing else: no link is followed (in the last component; the folder is
// the user's own), no pipe waited for.
std::string open_plain(const std::string& path, int flags, Descriptor& file);

// Waits until nobody else holds the lock, which ends with the descriptor, but no longer than
// `longest`; `locked`: it was had. A file system without locks lets everybody in.
std::string lock_file(const std::string& path, std::chrono::milliseconds longest, Descriptor& held,
                      bool& locked);

// While it lives, what would end the program (Ctrl-C) waits: a file on its way is either named or
// gone.
class SignalsHeld {
  public:
    SignalsHeld();
    ~SignalsHeld();
    SignalsHeld(const SignalsHeld&) = delete;
    SignalsHeld& operator=(const SignalsHeld&) = delete;

  private:
    sigset_t before_ = {};
};

} // namespace acre::cli
