//! A button that picks files.

use leptos::{ev::Event, prelude::*};
use wasm_bindgen::JsCast;
use web_sys::{File, FileList, HtmlInputElement};

/// The button. Several files may be picked at once.
#[component]
pub fn FileButton(
    /// What the button says.
    label: &'static str,
    /// The field's id on the page.
    id: &'static str,
    /// What is picked; cards and their like where it is left out.
    #[prop(default = ".json,.html,.zip,application/json,text/html,application/zip")]
    accept: &'static str,
    /// Whether the tablet's camera is to be opened rather than its files.
    #[prop(optional)]
    camera: bool,
    /// The look of the button, beside that of every button.
    #[prop(optional)]
    class: &'static str,
    /// Gets the files.
    picked: Callback<Vec<File>>,
) -> impl IntoView {
    let change = move |event: Event| {
        let Some(field) = event
            .target()
            .and_then(|target| target.dyn_into::<HtmlInputElement>().ok())
        else {
            return;
        };
        let files = files(field.files());
        // So that the same file can be picked again.
        field.set_value("");
        if !files.is_empty() {
            picked.run(files);
        }
    };
    view! {
        <label class=format!("button file-button {class}") for=id>
            <input id=id class="visually-hidden" type="file" multiple=!camera accept=accept
                capture=camera.then_some("environment") on:change=change/>
            {label}
        </label>
    }
}

/// The files of a list as the browser gives it.
pub fn files(list: Option<FileList>) -> Vec<File> {
    list.map(|list| (0..list.length()).filter_map(|n| list.get(n)).collect())
        .unwrap_or_default()
}
