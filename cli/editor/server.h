// The language server: messages in, messages out. Nothing here reads or writes a stream.
#pragma once

#include <memory>
#include <string>

#include "cli/editor/messages.h"
#include "cli/editor/workspace.h"

namespace acre::cli {

class Server {
  public:
    explicit Server(EditorSettings settings);
    ~Server();
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;

    void take(Incoming message); // into the row of those that wait
    bool waits() const;          // a message waits for its answer
    void step();                 // answers the first of them
    bool unsettled() const;      // a text changed, and what is wrong was not all told yet
    bool settling() const;       // and telling it has begun
    void settle();               // tells it of one text more; a change in between starts anew

    std::string output();  // what there is to send, with its frames; then there is nothing
    bool ended() const;    // `exit` was read
    bool in_order() const; // after `shutdown`, as it should be

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace acre::cli
