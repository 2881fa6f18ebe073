//! The key that cards are sealed with: it stays on this tablet, unless somebody saves its file.

use gloo_storage::{LocalStorage, Storage};
use ringland_card::seal::SealKey;

/// Where it is kept, as its file.
const KEY: &str = "ringland.seal-key";

/// The key of this tablet.
pub fn kept() -> Option<SealKey> {
    let file: String = LocalStorage::get(KEY).ok()?;
    SealKey::read(file.as_bytes()).ok()
}

/// Keeps a key in place of the last one; whether the browser did.
pub fn keep(key: &SealKey) -> bool {
    LocalStorage::set(KEY, key.write()).is_ok()
}
