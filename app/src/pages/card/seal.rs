//! Sealing the card, and the key that it is done with.

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{
    Body, Seal,
    card::LONGEST_RATER,
    file::DigestingCard,
    seal::{SealKey, SealKeyError, cover},
};
use ringland_report::{
    format::{check_word, file_name},
    help::Topic,
    words::Words,
};
use web_sys::File;

use crate::{
    app::announce,
    components::{
        act::{press, send, text},
        file_button::FileButton,
        live::live,
    },
    persist::{seal_key, transfer},
    platform,
    route::Route,
    store::{
        CardStore,
        open::{Draft, Refused, refusal},
        prefs::use_words,
        use_card, use_prefs,
    },
};

/// How the name of a key's file ends.
const ENDS: &str = ".seal-key.json";

/// What is shown beside the buttons.
#[derive(Clone, Debug, PartialEq)]
enum Said {
    Nothing,
    Sealing,
    Done(String),
    Wrong(String),
}

/// A `Copy` handle on the sealing of the open card.
#[derive(Clone, Copy)]
struct Sealing {
    store: CardStore,
    key: RwSignal<Option<SealKey>>,
    said: RwSignal<Said>,
}

/// The button, and what it opens.
#[component]
pub fn SealCard() -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let sealing = Sealing {
        store,
        key: RwSignal::new(seal_key::kept()),
        said: RwSignal::new(Said::Nothing),
    };
    let open = RwSignal::new(false);
    let toggle = move || open.update(|open| *open = !*open);
    (!store.read_only()).then(|| {
        view! {
            <button type="button" class="button" id="seal" aria-expanded=move || open.get().to_string()
                on:click=press(toggle)>{words.seals.seal}</button>
            {live(move || open.get().then(|| view! { <Panel sealing/> }.into_any()))}
        }
        .into_any()
    })
}

#[component]
fn Panel(sealing: Sealing) -> impl IntoView {
    let words = use_words();
    let w = &words.seals;
    let body = move || match sealing.key.get() {
        Some(key) => view! { <WithKey sealing key/> }.into_any(),
        None => view! { <NewKey sealing/> }.into_any(),
    };
    let take = Callback::new(move |files: Vec<File>| {
        if let Some(file) = files.into_iter().next() {
            spawn_local(sealing.take(file));
        }
    });
    let said = move || {
        Some(match sealing.said.get() {
            Said::Nothing => return None,
            Said::Sealing => view! { <p role="status">{w.sealing}</p> }.into_any(),
            Said::Done(said) => view! { <p role="status" id="sealed">{said}</p> }.into_any(),
            Said::Wrong(why) => view! { <p class="trouble" role="alert">{why}</p> }.into_any(),
        })
    };
    view! {
        <section class="seal" aria-label=w.title>
            <p>{w.lead}</p>
            <p class="fine">{w.proves}". "{w.not}". "<a href=Route::Help(Topic::Seals).href()>{words.help.seals}</a></p>
            {live(body)}
            <FileButton label=w.take_key id="seal-take-key" accept=".json,application/json" picked=take/>
            {live(said)}
        </section>
    }
}

/// The name, and a key made for it.
#[component]
fn NewKey(sealing: Sealing) -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let name = RwSignal::new(prefs.rater());
    view! {
        <form class="seal__new" on:submit=send(move || sealing.begin(&name.get_untracked()))>
            <label class="field">
                <span class="field__label">{words.seals.whose}</span>
                <input class="field__input" id="seal-name" maxlength=LONGEST_RATER.to_string() autocomplete="off"
                    prop:value=move || name.get() on:input=text(move |typed| name.set(typed))/>
            </label>
            <button type="submit" class="button button--act" id="seal-make">{words.seals.make}</button>
        </form>
    }
}

/// What is done with the key of this tablet.
#[component]
fn WithKey(sealing: Sealing, key: SealKey) -> impl IntoView {
    let words = use_words();
    let w = &words.seals;
    let whose = w.with_key(key.name(), &check_word(&key.public()));
    let (with, saved) = (key.clone(), key);
    view! {
        <p class="num">{whose}</p>
        <div class="panel__acts">
            <button type="button" class="button button--act" id="seal-now" on:click=press(move || sealing.seal(with.clone()))>{w.now}</button>
            <button type="button" class="button" id="seal-save-key" on:click=press(move || sealing.save(&saved))>{w.save_key}</button>
        </div>
        <p class="fine">{w.save_key_hint}</p>
    }
}

impl Sealing {
    fn wrong(self, why: String) {
        let _left = self.said.try_set(Said::Wrong(why));
    }

    /// Makes a key for a name, keeps it and seals with it.
    fn begin(self, name: &str) {
        let words = use_words();
        match SealKey::from_seed(name.trim(), platform::seed()) {
            Ok(key) => {
                if self.keep(words, &key) {
                    self.seal(key);
                }
            }
            Err(why) => self.wrong(words.seal_key_error(&why)),
        }
    }

    fn keep(self, words: &Words, key: &SealKey) -> bool {
        let kept = seal_key::keep(key);
        if kept {
            let _left = self.key.try_set(Some(key.clone()));
        } else {
            self.wrong(words.errors.storage_full.to_owned());
        }
        kept
    }

    /// Takes a key from a file.
    async fn take(self, file: File) {
        let words = use_words();
        let bytes = transfer::bytes(&file).await;
        let read = bytes.map_err(|_unread| SealKeyError::NotAKey);
        match read.and_then(|bytes| SealKey::read(&bytes)) {
            Ok(key) => {
                if self.keep(words, &key) {
                    let _left = self.said.try_set(Said::Nothing);
                }
            }
            Err(why) => self.wrong(words.seal_key_error(&why)),
        }
    }

    fn save(self, key: &SealKey) {
        let words = use_words();
        let name = file_name(key.name(), "key", ENDS);
        match transfer::save_text(&name, "application/json", &key.write()) {
            Ok(()) => self.said.set(Said::Done(words.seals.key_saved(&name))),
            Err(_refused) => self.wrong(words.card.not_saved.to_owned()),
        }
    }

    /// Seals the card after everything that was asked for before.
    fn seal(self, key: SealKey) {
        let (store, words) = (self.store, use_words());
        if store.peek(|open| open.unreadable).unwrap_or_default() > 0 {
            return self.wrong(words.seals.error_unreadable.to_owned());
        }
        self.said.set(Said::Sealing);
        store.after(move || async move {
            match self.sealed(&key).await {
                Ok(()) => {
                    let done = words.seals.done;
                    let _left = self.said.try_set(Said::Done(done.to_owned()));
                    announce(done);
                }
                Err(why) => {
                    let why = store.peek(|open| refusal(words, open.card.plan(), &why));
                    self.wrong(why.unwrap_or_default());
                }
            }
        });
    }

    async fn sealed(self, key: &SealKey) -> Result<(), Refused> {
        let store = self.store;
        let digesting = store.peek(|open| DigestingCard::new(&open.card));
        let digesting = digesting.ok_or(Refused::NoCard)?;
        let digest = store.in_slices(digesting, DigestingCard::step).await;
        let digest = digest.ok_or(Refused::NoCard)?;
        let made = |open: &crate::store::open::Open| -> Seal {
            key.seal(&open.card, platform::now(), cover(&open.card), digest)
        };
        let seal = Box::new(store.peek(made).ok_or(Refused::NoCard)?);
        store.keep(vec![Draft::from(Body::Seal { seal })]).await
    }
}
