//! What the core may not know: the clock, random bytes, ids made of them; and where the keyboard is.

use js_sys::Date;
use ringland_card::{CardId, DeviceId, EntryId, GaugeId, PlanId, SizesId, Timestamp};
use ringland_report::words::Language;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::HtmlElement;

/// Now, by the browser's clock.
pub fn now() -> Timestamp {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "milliseconds since 1970 are far below 2^53"
    )]
    let milliseconds = Date::now() as i64;
    Timestamp::from_millisecond(milliseconds).unwrap_or(Timestamp::UNIX_EPOCH)
}

/// Minutes that the tablet's own time is ahead of UTC.
pub fn offset_minutes() -> i32 {
    #[expect(clippy::cast_possible_truncation, reason = "within a day")]
    let behind = Date::new_0().get_timezone_offset() as i32;
    -behind
}

/// The first of the browser's languages that there are words in.
pub fn language() -> Option<Language> {
    let asked = leptos::prelude::window().navigator().languages();
    asked
        .iter()
        .filter_map(|tag| tag.as_string())
        .find_map(|tag| Language::of_tag(&tag))
}

/// Bytes for a key that nobody can guess; all 0, which no key is made of, where the browser gives none.
pub fn seed() -> [u8; 32] {
    random()
}

fn random<const BYTES: usize>() -> [u8; BYTES] {
    let mut bytes = [0; BYTES];
    if let Ok(crypto) = leptos::prelude::window().crypto() {
        // Refused only for requests above 64 KiB.
        let _filled: Result<_, JsValue> = crypto.get_random_values_with_u8_array(&mut bytes);
    }
    bytes
}

fn unix_ms() -> u64 {
    u64::try_from(now().as_millisecond()).unwrap_or(0)
}

/// A new card's id.
pub fn card_id() -> CardId {
    CardId::v7(unix_ms(), random())
}

/// A new entry's id.
pub fn entry_id() -> EntryId {
    EntryId::v7(unix_ms(), random())
}

/// A new device's id.
pub fn device_id() -> DeviceId {
    DeviceId::v7(unix_ms(), random())
}

/// A new plan's id.
pub fn plan_id() -> PlanId {
    PlanId::v7(unix_ms(), random())
}

/// A new gauge's id.
pub fn gauge_id() -> GaugeId {
    GaugeId::v7(unix_ms(), random())
}

/// A new size sheet's id.
pub fn sizes_id() -> SizesId {
    SizesId::v7(unix_ms(), random())
}

/// Tells the page's own script that the app has started.
pub fn say_started() {
    if let Some(root) = leptos::prelude::document().document_element() {
        let _set = root.set_attribute("data-started", "yes");
    }
    tell_page("ringland-started");
}

/// Tells the page's own script something.
pub fn tell_page(what: &str) {
    if let Ok(event) = web_sys::CustomEvent::new(what) {
        let _told = leptos::prelude::window().dispatch_event(&event);
    }
}

/// Whether the page's own script has said that a new version is ready.
pub fn update_is_ready() -> bool {
    let root = leptos::prelude::document().document_element();
    root.is_some_and(|root| root.has_attribute("data-update"))
}

/// Puts the keyboard into the element of that id, which may only be about to appear.
pub fn focus(id: &str) {
    focus_on(format!("#{id}"));
}

/// Begins to read at the element of that id, from the very top of the page: the place to which the last
/// screen was scrolled means nothing on this one, and the bar above stays in sight.
pub fn begin_at(id: &str) {
    focus(id);
    // After the keyboard's own move, which scrolls too.
    leptos::prelude::request_animation_frame(|| {
        leptos::prelude::window().scroll_to_with_x_and_y(0.0, 0.0);
    });
}

/// Puts the keyboard into the first element that a selector finds, which may only be about to appear.
pub fn focus_on(selector: String) {
    leptos::prelude::request_animation_frame(move || {
        let element = leptos::prelude::document().query_selector(&selector);
        if let Some(element) = element
            .ok()
            .flatten()
            .and_then(|found| found.dyn_into::<HtmlElement>().ok())
        {
            // What cannot take the keyboard leaves it where it is.
            let _focused = element.focus();
        }
    });
}
