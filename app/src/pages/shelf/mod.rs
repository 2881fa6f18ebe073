//! Shelf: the engines on this tablet, files in and out, storage and settings.

pub mod desk;
pub mod engine;
pub mod foot;
pub mod install;
pub mod safe;
pub mod settings;

use leptos::{prelude::*, task::spawn_local};

use self::{
    desk::{NoticeBar, provide_desk, use_desk},
    engine::Engine,
    foot::{Demo, Storage},
    install::Install,
    safe::Safe,
    settings::Settings,
};
use crate::{
    components::{
        act::{press, text},
        file_button::FileButton,
        live::live,
        thumb::ThumbHatch,
    },
    pages::intake::{Drop, IntakeNews},
    persist::KeepError,
    route::Route,
    store::{prefs::use_words, shelf::ShelfState, use_shelf},
};

/// Engines from which on a field to find one stands above them.
const MANY: usize = 8;

/// The screen.
#[component]
pub fn ShelfPage() -> impl IntoView {
    let (desk, shelf) = (provide_desk(), use_shelf());
    // What was done on the Bench shows here, too.
    if shelf.state_now() == ShelfState::Ready {
        spawn_local(async move {
            // A Shelf that cannot be read anew still shows what it last read.
            let _read = shelf.refresh().await;
        });
    }
    view! {
        <div class="shelf">
            <ThumbHatch/>
            <Head/>
            <IntakeNews intake=desk.intake/>
            <Safe/>
            {move || match shelf.state() {
                ShelfState::Loading => view! { <Loading/> }.into_any(),
                ShelfState::Refused(why) => view! { <Refused why/> }.into_any(),
                ShelfState::Ready => view! { <Engines/> }.into_any(),
            }}
            <div class="shelf__foot">
                <div class="shelf__column">
                    <Install/>
                    <Storage/>
                    <Demo/>
                </div>
                <Settings/>
            </div>
        </div>
        <NoticeBar/>
        <Drop intake=desk.intake/>
    }
}

/// The title and what may be begun.
#[component]
fn Head() -> impl IntoView {
    let (desk, shelf, words) = (use_desk(), use_shelf(), use_words());
    let count = move || match (shelf.state(), shelf.cards().len()) {
        (ShelfState::Ready, count) if count > 0 => words.shelf.n_engines(count),
        _ => String::new(),
    };
    view! {
        <header class="shelf__head">
            <h1 class="shelf__title">{words.shelf.engines}</h1>
            <p class="shelf__count num">{live(count)}</p>
            <div class="shelf__acts">
                <a class="button button--act" href=Route::New.href()>{words.shelf.new_engine}</a>
                <FileButton label=words.shelf.open_file id="open-files"
                    picked=Callback::new(move |files| desk.intake.open(files))/>
            </div>
        </header>
    }
}

#[component]
fn Loading() -> impl IntoView {
    let words = use_words();
    view! {
        <p class="waiting" role="status">{words.common.opening}</p>
        <div class="engines" aria-hidden="true">
            {(0..3).map(|_| view! { <div class="engine engine--waiting"></div> }.into_any()).collect_view()}
        </div>
    }
}

#[component]
fn Refused(why: KeepError) -> impl IntoView {
    let words = use_words();
    let again = || {
        // A page that cannot be loaded again stays as it is.
        let _loading = window().location().reload();
    };
    view! {
        <section class="trouble" role="alert">
            <h2>{words.shelf.storage_off}</h2>
            <ul>
                {[words.shelf.storage_private, words.shelf.storage_blocked, words.shelf.storage_other]
                    .map(|hint| view! { <li>{hint}</li> }.into_any()).collect_view()}
            </ul>
            <p class="fine">{why.reason(words)}</p>
            <button type="button" class="button" on:click=press(again)>{words.common.try_again}</button>
        </section>
    }
}

/// The engines, the last changed first; a field to find one where there are many.
#[component]
fn Engines() -> impl IntoView {
    let (shelf, words) = (use_shelf(), use_words());
    let find = RwSignal::new(String::new());
    let found = move || {
        let wanted = find.with(|text| text.trim().to_lowercase());
        let mut cards = shelf.cards();
        cards.retain(|card| wanted.is_empty() || card.mentions(&wanted));
        cards
    };
    let empty = Memo::new(move |_| shelf.cards().is_empty());
    let many = Memo::new(move |_| shelf.cards().len() >= MANY);
    view! {
        {live(move || empty.get().then(|| view! { <Empty/> }.into_any()))}
        {live(move || many.get().then(|| view! {
            <label class="field shelf__find">
                <span class="field__label">{words.shelf.find}</span>
                <input type="search" class="field__input" autocomplete="off" on:input=text(move |typed| find.set(typed))/>
            </label>
        }.into_any()))}
        <div class="engines">
            {live(move || found().into_iter().map(|card| view! { <Engine card/> }).collect_view())}
        </div>
        {live(move || (!empty.get() && found().is_empty()).then(|| view! { <p class="mute">{words.shelf.none_found}</p> }.into_any()))}
    }
}

/// Nothing here yet: what to do next.
#[component]
fn Empty() -> impl IntoView {
    let (desk, words) = (use_desk(), use_words());
    view! {
        <section class="empty">
            <h2>{words.shelf.empty}</h2>
            <p class="mute">{words.shelf.empty_hint}</p>
            <div class="panel__acts">
                <a class="button button--act" href=Route::New.href()>{words.shelf.new_engine}</a>
                <FileButton label=words.shelf.open_file id="open-files-empty"
                    picked=Callback::new(move |files| desk.intake.open(files))/>
                <button type="button" class="button" disabled=move || desk.busy() on:click=press(move || desk.put_demo())>
                    {words.shelf.demo_put}
                </button>
            </div>
            <p class="fine">{words.shelf.drop_here}</p>
        </section>
    }
}
