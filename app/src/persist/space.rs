//! How much storage is used and left, and whether the browser has promised to keep it.

use js_sys::{Promise, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{StorageEstimate, StorageManager};

use crate::store::Prefs;

/// What the browser says about this page's storage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Space {
    /// Bytes used.
    pub used: f64,
    /// Bytes that it may take in all.
    pub quota: f64,
}

impl Space {
    /// Bytes left.
    pub fn left(self) -> f64 {
        (self.quota - self.used).max(0.0)
    }
}

/// The browser's storage manager; older browsers and some pages opened as a file have none.
fn manager() -> Option<StorageManager> {
    let navigator: JsValue = window().navigator().into();
    let manager = Reflect::get(&navigator, &"storage".into()).ok()?;
    manager.is_object().then(|| manager.unchecked_into())
}

async fn answer(promise: Result<Promise, JsValue>) -> Option<JsValue> {
    JsFuture::from(promise.ok()?).await.ok()
}

/// How much is used and left, where the browser says.
pub async fn space() -> Option<Space> {
    let estimate: StorageEstimate = answer(manager()?.estimate()).await?.unchecked_into();
    Some(Space {
        used: estimate.get_usage()?,
        quota: estimate.get_quota()?,
    })
}

/// Whether the browser has promised to keep this page's storage, where it says.
pub async fn stays() -> Option<bool> {
    answer(manager()?.persisted()).await?.as_bool()
}

/// Asks the browser to keep it. Some browsers ask the person, some decide by themselves.
pub async fn ask_to_stay() -> Option<bool> {
    answer(manager()?.persist()).await?.as_bool()
}

/// Asks once on this tablet, after the first thing worth keeping; the Shelf shows the answer.
pub async fn ask_once(prefs: Prefs) {
    if !prefs.asked_to_stay() {
        prefs.set_asked_to_stay();
        let _shown_on_the_shelf = ask_to_stay().await;
    }
}

/// Whether the page was opened as a file, so that its storage may hang on the file's place.
pub fn in_a_file() -> bool {
    window()
        .location()
        .protocol()
        .is_ok_and(|protocol| protocol == "file:")
}
