//! What has been typed and is not kept yet: in session storage, so that a reload leaves it there.
//!
//! Each text stands under a name of its own, a way with slashes: `new/fact-name`.

use gloo_storage::{SessionStorage, Storage};

const BEFORE: &str = "ringland.draft/";

fn key(name: &str) -> String {
    [BEFORE, name].concat()
}

/// What was typed under that name.
pub fn recall(name: &str) -> Option<String> {
    SessionStorage::raw().get_item(&key(name)).ok()?
}

/// Remembers what has been typed.
pub fn remember(name: &str, text: &str) {
    // Where nothing can be kept, a reload loses it, as it does without this.
    let _kept = SessionStorage::raw().set_item(&key(name), text);
}

/// Forgets it: it is kept now, or not wanted.
pub fn forget(name: &str) {
    let _gone = SessionStorage::raw().remove_item(&key(name));
}
