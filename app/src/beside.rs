//! The worker beside the page: what is asked of it is done while the page goes on.

use js_sys::{Array, Object, Promise, Reflect};
use leptos::prelude::document;
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, MessageEvent, Url, Worker};

/// The element of the page that says where the worker's script is, or holds it.
const SCRIPT: &str = "worker";

/// What one message asks, by name.
pub struct Asked(Object);

impl Asked {
    /// Something to be done.
    pub fn to(act: &str) -> Self {
        Self(Object::new()).with("act", &act.into())
    }

    /// With a value that it needs.
    #[must_use]
    pub fn with(self, name: &str, value: &JsValue) -> Self {
        // A plain object takes whatever it is given.
        let _set = Reflect::set(&self.0, &name.into(), value);
        self
    }
}

impl From<Asked> for JsValue {
    fn from(asked: Asked) -> Self {
        asked.0.into()
    }
}

/// A worker, until it is let go.
pub struct Beside(Worker);

impl Beside {
    /// Starts it; none where the page brings no worker, or the browser starts none.
    pub fn start() -> Option<Self> {
        let script = document().get_element_by_id(SCRIPT)?;
        let worker = match script.get_attribute("data-at") {
            Some(address) => Worker::new(&address),
            None => of_text(&script.text_content()?),
        };
        worker.ok().map(Self)
    }

    /// Asks it for something, and waits for the answer. One thing at a time: whoever asks has had the last answer.
    ///
    /// # Errors
    ///
    /// What the worker says is wrong; nothing where it did not run at all.
    pub async fn ask(&self, asked: Asked, gives: &Array) -> Result<JsValue, String> {
        let worker = self.0.clone();
        let answer = Promise::new(&mut |done, fail| {
            let told = Closure::once_into_js(move |event: MessageEvent| {
                let _called = done.call1(&JsValue::NULL, &event.data());
            });
            worker.set_onmessage(Some(told.unchecked_ref()));
            worker.set_onerror(Some(&fail));
        });
        let sent = self.0.post_message_with_transfer(&asked.into(), gives);
        sent.map_err(|_refused| String::new())?;
        let answer = JsFuture::from(answer).await;
        let answer = answer.map_err(|_broken| String::new())?;
        let part = |name: &str| Reflect::get(&answer, &name.into()).unwrap_or_default();
        match part("why").as_string() {
            Some(why) => Err(why),
            None => Ok(part("answer")),
        }
    }
}

impl Drop for Beside {
    fn drop(&mut self) {
        self.0.terminate();
    }
}

fn of_text(text: &str) -> Result<Worker, JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type("text/javascript");
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &options)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let worker = Worker::new(&address);
    // What the worker has begun to read it goes on reading.
    let _gone = Url::revoke_object_url(&address);
    worker
}
