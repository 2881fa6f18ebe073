//! Several tabs on one tablet: one at a time writes on a card, and the others hear of it.

use js_sys::{Array, Function, Promise, Reflect};
use leptos::prelude::window;
use ringland_card::CardId;
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use wasm_bindgen_futures::JsFuture;
use web_sys::Event;

thread_local! {
    /// One for the page: what it says it does not hear itself. Older browsers have none.
    static CHANNEL: Option<JsValue> = channel();
}

/// Called by its name, as everything here: where a browser has it not, nothing is lost.
fn channel() -> Option<JsValue> {
    let make = function(&window(), "BroadcastChannel")?;
    Reflect::construct(&make, &Array::of1(&"ringland".into())).ok()
}

/// Tells the other tabs that something of a card was written.
pub fn tell(card: CardId) {
    CHANNEL.with(|channel| {
        let channel = channel.as_ref()?;
        // Whoever does not hear of it looks for itself before it next writes.
        let post = function(channel, "postMessage")?;
        post.call1(channel, &card.to_string().into()).ok()
    });
}

/// Calls this whenever another tab has written something of a card, as long as the page is open.
pub fn listen(heard: impl Fn(CardId) + 'static) {
    let take = move |event: Event| {
        let said = Reflect::get(&event, &"data".into()).ok();
        let card = said.and_then(|said| said.as_string());
        if let Some(card) = card.and_then(|card| CardId::parse(&card).ok()) {
            heard(card);
        }
    };
    let take = Closure::<dyn Fn(Event)>::new(take).into_js_value();
    CHANNEL.with(|channel| {
        let channel = channel.as_ref()?;
        Reflect::set(channel, &"onmessage".into(), &take).ok()
    });
}

/// While this is there, no other tab writes on the card. A tab that is killed lets go.
#[derive(Debug)]
pub struct Alone(Option<Function>);

impl Drop for Alone {
    fn drop(&mut self) {
        if let Some(let_go) = &self.0 {
            let _let_go = let_go.call0(&JsValue::UNDEFINED);
        }
    }
}

/// Waits until no other tab writes on the card. Where the browser has no locks, or none for a page
/// like this one, it goes on at once: each entry is a record of its own and is written over by nobody.
pub async fn alone(card: CardId) -> Alone {
    let (until, let_go) = promise();
    let (granted, grant) = promise();
    let (Some(let_go), Some(grant)) = (let_go, grant) else {
        return Alone(None);
    };
    let go_on = grant.clone();
    let hold = Closure::once_into_js(move || {
        let _granted = go_on.call0(&JsValue::UNDEFINED);
        until
    });
    if ask(&format!("ringland {card}"), &hold, &grant).is_none() {
        return Alone(None);
    }
    let _granted = JsFuture::from(granted).await;
    Alone(Some(let_go))
}

/// A promise, and what keeps it.
fn promise() -> (Promise, Option<Function>) {
    let mut keep = None;
    let promise = Promise::new(&mut |kept: Function, _| keep = Some(kept));
    (promise, keep)
}

/// Asks for a lock.
fn ask(name: &str, hold: &JsValue, refused: &Function) -> Option<()> {
    let navigator: JsValue = window().navigator().into();
    let locks = Reflect::get(&navigator, &"locks".into()).ok()?;
    let request = function(&locks, "request")?;
    let asked = request.call2(&locks, &name.into(), hold).ok()?;
    let then = function(&asked, "then")?;
    then.call2(&asked, &JsValue::UNDEFINED, refused).ok()?;
    Some(())
}

fn function(of: &JsValue, name: &str) -> Option<Function> {
    Reflect::get(of, &name.into()).ok()?.dyn_into().ok()
}
