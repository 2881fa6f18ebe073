//! Files in and out of the browser.

use js_sys::{Array, Reflect, Uint8Array};
use leptos::prelude::{document, window};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, File, FilePropertyBag, HtmlAnchorElement, ShareData, Url};

/// Text as a file of that name and kind.
///
/// # Errors
///
/// What the browser said.
pub fn file_of(name: &str, kind: &str, text: &str) -> Result<File, JsValue> {
    // As bytes: a text of the page's own would be made of it first, only to be turned back.
    file_of_parts(name, kind, &Array::of1(&Uint8Array::from(text.as_bytes())))
}

/// Bytes in parts, one after the other, as a file of that name and kind.
///
/// # Errors
///
/// What the browser said.
pub fn file_of_parts(name: &str, kind: &str, parts: &Array) -> Result<File, JsValue> {
    let options = FilePropertyBag::new();
    options.set_type(kind);
    File::new_with_u8_array_sequence_and_options(parts, name, &options)
}

/// Offers text as a file to save.
///
/// # Errors
///
/// What the browser said.
pub fn save_text(name: &str, kind: &str, text: &str) -> Result<(), JsValue> {
    save(&file_of(name, kind, text)?)
}

/// Whether the browser can hand a file on to other apps of the tablet.
pub fn can_share(file: &File) -> bool {
    let navigator = window().navigator();
    let known = Reflect::has(&navigator, &"canShare".into()).unwrap_or(false);
    known && navigator.can_share_with_data(&sharing(file))
}

/// Hands a file on to another app; whoever calls it must have been pressed just now.
///
/// # Errors
///
/// What the browser said; also where nobody was chosen.
pub async fn share(file: &File) -> Result<(), JsValue> {
    let shared = window().navigator().share_with_data(&sharing(file));
    JsFuture::from(shared).await.map(|_| ())
}

fn sharing(file: &File) -> ShareData {
    let data = ShareData::new();
    data.set_files(&Array::of1(file));
    data
}

/// Offers a file to save.
///
/// # Errors
///
/// What the browser said.
pub fn save(file: &File) -> Result<(), JsValue> {
    let url = Url::create_object_url_with_blob(file)?;
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&url);
    link.set_download(&file.name());
    link.click();
    // The browser has taken the blob over by the next turn.
    let revoke = wasm_bindgen::closure::Closure::once_into_js(move || Url::revoke_object_url(&url));
    window()
        .set_timeout_with_callback_and_timeout_and_arguments_0(revoke.unchecked_ref(), 10_000)?;
    Ok(())
}

/// How many bytes a file has.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a size in bytes"
)]
pub fn size(file: &Blob) -> u64 {
    file.size() as u64
}

/// How much of a file is asked for at once, in bytes.
const PIECE: usize = 8 << 20;

/// The bytes of a file that was picked or dropped. They come piece by piece, between which the browser
/// has its turn.
///
/// # Errors
///
/// What the browser said.
pub async fn bytes(file: &File) -> Result<Vec<u8>, JsValue> {
    let mut bytes = Vec::new();
    loop {
        let (from, to) = (bytes.len() as f64, (bytes.len() + PIECE) as f64);
        let piece = file.slice_with_f64_and_f64(from, to)?;
        let piece = Uint8Array::new(&JsFuture::from(piece.array_buffer()).await?);
        if piece.length() == 0 {
            return Ok(bytes);
        }
        bytes.extend(piece.to_vec());
    }
}
