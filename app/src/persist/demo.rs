//! The demo engines, which stand in the page: see the builder's `page` module for the block's shape.

use js_sys::{Function, Reflect, Uint8Array};
use leptos::prelude::{document, window};
use serde::Deserialize;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, ReadableStream, Response};

/// One demo engine: by address in the site, packed in the single file.
#[derive(Clone, Debug, Deserialize)]
struct Demo {
    url: Option<String>,
    gz: Option<String>,
}

/// The demo engines' files; those that cannot be had are left out.
pub async fn files() -> Vec<Vec<u8>> {
    let block = document()
        .get_element_by_id("demo")
        .and_then(|block| block.text_content())
        .unwrap_or_default();
    let demos: Vec<Demo> = serde_json::from_str(&block).unwrap_or_default();
    let mut files = Vec::new();
    for demo in demos {
        let file = match (demo.url, demo.gz) {
            (Some(url), _) => fetch(&url).await,
            (None, Some(gz)) => unpack(&gz).await,
            (None, None) => continue,
        };
        files.extend(file.ok());
    }
    files
}

async fn fetch(url: &str) -> Result<Vec<u8>, JsValue> {
    let response: Response = JsFuture::from(window().fetch_with_str(url))
        .await?
        .unchecked_into();
    body(&response).await
}

async fn unpack(gz: &str) -> Result<Vec<u8>, JsValue> {
    let letters = window().atob(gz)?;
    let packed: Vec<u8> = letters
        .chars()
        .filter_map(|letter| u8::try_from(letter).ok())
        .collect();
    let parts = js_sys::Array::of1(&Uint8Array::from(packed.as_slice()));
    let blob = Blob::new_with_u8_array_sequence(&parts)?;
    let stream: JsValue = blob.stream().into();
    // Neither is in the bindings yet: called by name.
    let make: Function = Reflect::get(&window(), &"DecompressionStream".into())?.unchecked_into();
    let unpacker = Reflect::construct(&make, &js_sys::Array::of1(&"gzip".into()))?;
    let pipe: Function = Reflect::get(&stream, &"pipeThrough".into())?.unchecked_into();
    let stream: ReadableStream = pipe.call1(&stream, &unpacker)?.unchecked_into();
    body(&Response::new_with_opt_readable_stream(Some(&stream))?).await
}

async fn body(response: &Response) -> Result<Vec<u8>, JsValue> {
    let buffer = JsFuture::from(response.array_buffer()?).await?;
    Ok(Uint8Array::new(&buffer).to_vec())
}
