// What is known of the texts that are open: what `check` finds in each, and the outline of the job
// that it is seen in. It is asked anew when a text changes, and not before; the outline, which is
// half the work again, only when somebody wants to see figures.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "cli/editor/documents.h"
#include "engine/questions/outline.h"
#include "lang/diag/outcome.h"
#include "lang/kept_trees.h"
#include "lang/loader.h"

namespace acre::cli {

struct EditorSettings {
    std::string root;                 // the folder that is open; empty: none
    std::vector<std::string> folders; // all that are open, where there are more
    std::string job;    // a job in whose light models and seasons are seen; empty: looked for
    std::string models; // one more folder to look for models in
};

// What was found in a text, in whatever file.
struct Found {
    std::vector<lang::Said> own; // by itself
    std::vector<lang::Said> job; // in the light of its job, if that is another
};

struct TextView {
    std::shared_ptr<const engine::Outline> outline; // perhaps of the text before; may be null
    bool fresh = false;                             // the outline is of the text as it is now
    std::string job;                                // whose figures these are: path; or the model
    std::string no_price; // why there is none, in a line; empty: there is one, or none to be had
};

// What one file comes to, at the texts of a loader.
struct Looked {
    std::vector<lang::Said> said;
    engine::Job job;    // null: none could be made
    bool whole = false; // it has all values of the text: it is the one that `price` prices

    // Worked out when it is first asked for; while a text has errors, that of the job before them.
    const std::shared_ptr<const engine::Outline>& outline();
    void keep_known(const Looked& before);     // for as long as there is no job
    bool names(const std::string& path) const; // the file is among the job's texts

  private:
    engine::Job before_;
    std::shared_ptr<const engine::Outline> outline_;
};

class Workspace {
  public:
    EditorSettings settings;
    Documents documents;

    void changed() { ++revision_; } // a text did
    void files_changed() {          // a file on the disk did, what is open, or a setting
        ++revision_;
        ++files_revision_;
    }
    // Of an open text or a file; the path must end as one of the notation's.
    const TextView& view(const std::string& path);
    // What is wrong, without figures; and sooner, with what was found last in the light of its job.
    const Found& found(const std::string& path);
    const Found& found_by_itself(const std::string& path);
    // Jobs, models and seasons of the folders that are open, and of those around an open text that
    // is in none of them.
    std::vector<std::string> files() const;
    // A file by itself, with `documents` in the place of the open ones: all that `check` finds.
    Looked look(const std::string& path, const Documents& documents) const;
    // The same as it stands: what names mean, and the price. Of a season nothing.
    Looked glance(const std::string& path, const Documents& documents) const;
    std::string text_of(const std::string& path) const; // empty: it cannot be read
    bool is_there(const std::string& path) const;       // open, or a file that can be read

  private:
    struct Kept {
        std::uint64_t revision = 0;
        TextView view;
    };
    Looked& looked(const std::string& path);
    std::string job_for(const std::string& path);

    // Of the texts as they were at any letter: what is typed changes one, and leaves the others.
    std::shared_ptr<lang::KeptTrees> trees_ = std::make_shared<lang::KeptTrees>();
    std::uint64_t revision_ = 1;
    std::map<std::string, Kept> views_;
    std::map<std::string, Found> found_;
    std::map<std::string, std::pair<std::uint64_t, Looked>> looked_;
    struct Chosen {
        std::uint64_t searched = 0; // the files' revision then
        std::string job;            // the job a model was last seen in; itself: in none
    };
    std::uint64_t files_revision_ = 1;
    std::map<std::string, Chosen> job_of_;
};

} // namespace acre::cli
