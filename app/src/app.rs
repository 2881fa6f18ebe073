//! The frame: navigation, which screen, and what every screen needs.

use std::{rc::Rc, time::Duration};

use leptos::{ev::MouseEvent, prelude::*, task::spawn_local};
use ringland_card::CardId;
use ringland_report::{swatch, words::Language};

use crate::{
    components::{act::press, grid, live::live, update::UpdateBar},
    pages::{
        areas::AreasPage,
        bench::BenchPage,
        card::CardPage,
        facts::FactsPage,
        gauging::GaugingPage,
        help::HelpPage,
        new_engine::NewEnginePage,
        photos::{WallPage, photo::PhotoPage},
        plans::{PlansPage, editor::PlanPage},
        shelf::ShelfPage,
    },
    persist::{Db, KeepError, demo, tabs},
    platform,
    route::Route,
    store::{
        CardStore, Plans, Prefs, Shelf,
        open::provide_card,
        photos::provide_photos,
        plans::provide_plans,
        prefs::{provide_prefs, speak, use_words},
        shelf::provide_shelf,
        use_card, use_prefs,
    },
};

/// How long the Shelf waits for more of what another tab writes.
const MOMENT: Duration = Duration::from_millis(500);

/// The whole app.
#[component]
pub fn App() -> impl IntoView {
    let prefs = provide_prefs();
    let store = provide_card(prefs);
    let shelf = provide_shelf(store);
    let plans = provide_plans(store);
    provide_photos(store);
    let route = provide_route();
    show_theme(prefs);
    follow_tabs(store, shelf, route);
    spawn_local(async move {
        start(prefs, store, shelf, plans).await;
        // Keeping the site for offline use begins now: in Firefox, a file asked for while that is under
        // way may never come.
        platform::say_started();
    });
    let language = Memo::new(move |_| prefs.language());
    view! {
        <div class="defs" aria-hidden="true" inner_html=swatch::defs()></div>
        {live(move || {
            say_in(language.get());
            view! { <Screens route/> }
        })}
        <div id="announce" class="visually-hidden" aria-live="polite"></div>
    }
}

/// The bar and the screen below it, made anew for another language.
#[component]
fn Screens(route: ReadSignal<Route>) -> impl IntoView {
    view! {
        <Top route/>
        <UpdateBar/>
        <main id="main" class="main" tabindex="-1" on:keydown=|event| grid::arrows(&event)>
            {move || match route.get() {
                Route::Shelf => view! { <ShelfPage/> }.into_any(),
                Route::New => view! { <NewEnginePage/> }.into_any(),
                Route::Plans => view! { <PlansPage/> }.into_any(),
                Route::Plan(id) => view! { <PlanPage id/> }.into_any(),
                Route::Facts(id) => view! { <WithCard id page=|| view! { <FactsPage/> }.into_any()/> }.into_any(),
                Route::Bench(id) => view! { <WithCard id page=|| view! { <BenchPage/> }.into_any()/> }.into_any(),
                Route::Gauging(id) => view! { <WithCard id page=|| view! { <GaugingPage/> }.into_any()/> }.into_any(),
                Route::Card(id) => view! { <WithCard id page=|| view! { <CardPage/> }.into_any()/> }.into_any(),
                Route::Photos(id) => view! { <WithCard id page=|| view! { <WallPage/> }.into_any()/> }.into_any(),
                Route::Photo(id, photo) => view! { <WithCard id page=move || view! { <PhotoPage photo/> }.into_any()/> }.into_any(),
                Route::Areas(id, photo) => view! { <WithCard id page=move || view! { <AreasPage photo/> }.into_any()/> }.into_any(),
                Route::Help(topic) => view! { <HelpPage topic/> }.into_any(),
            }}
        </main>
    }
}

/// Words on the screen are of that language from here on, and the page says so.
fn say_in(language: Language) {
    speak(language);
    if let Some(root) = document().document_element() {
        let _set = root.set_attribute("lang", language.tag());
    }
}

/// Opens the database, puts the demo engines on the Shelf the first time, and reads it.
async fn start(prefs: Prefs, store: CardStore, shelf: Shelf, plans: Plans) {
    match Db::open().await {
        Ok(db) => store.set_db(Rc::new(db)),
        Err(error) => return shelf.refuse(error),
    }
    let first = !prefs.demo_seen();
    if first {
        for file in demo::files().await {
            // A demo engine that does not come in is no reason not to start.
            let _taken = shelf.take(&file).await;
        }
        prefs.set_demo_seen();
    }
    match shelf.refresh().await {
        // The program carries them: they need no backup.
        Ok(()) if first => shelf.backed_up(|_all| true),
        Ok(()) => {}
        Err(error) => return shelf.refuse(error),
    }
    plans.read_first().await;
    // What stays in the bin is offered back; the next start tries again.
    let _emptied = shelf.empty_bin().await;
}

/// Keeps in step with what other tabs write: the open card at once, the Shelf when it shows.
fn follow_tabs(store: CardStore, shelf: Shelf, route: ReadSignal<Route>) {
    let waiting = StoredValue::new(false);
    tabs::listen(move |card| {
        spawn_local(store.hear(card));
        // Whoever rates in another tab writes often: the Shelf is read once for all of a moment.
        if route.get_untracked() == Route::Shelf && !waiting.get_value() {
            waiting.set_value(true);
            set_timeout(
                move || {
                    waiting.set_value(false);
                    spawn_local(async move {
                        // A Shelf that cannot be read anew still shows what it last read.
                        let _read = shelf.refresh().await;
                    });
                },
                MOMENT,
            );
        }
    });
}

/// The address as a signal.
fn provide_route() -> ReadSignal<Route> {
    let read = || Route::parse(&window().location().hash().unwrap_or_default());
    let (route, set_route) = signal(read());
    window_event_listener(leptos::ev::hashchange, move |_| set_route.set(read()));
    provide_context(route);
    route
}

/// Which screen.
pub fn use_route() -> ReadSignal<Route> {
    expect_context()
}

/// Goes to a screen.
pub fn go(route: Route) {
    go_to(&route.href());
}

/// Goes to an address of the app.
pub fn go_to(href: &str) {
    // A hash that cannot be set leaves us where we are.
    let _went = window().location().set_hash(href);
}

fn show_theme(prefs: Prefs) {
    Effect::new(move || {
        if let Some(root) = document().document_element() {
            let _set = root.set_attribute("data-theme", prefs.theme().as_str());
        }
    });
}

/// Says something to people who listen to the screen.
pub fn announce(text: &str) {
    if let Some(place) = document().get_element_by_id("announce") {
        place.set_text_content(Some(text));
    }
}

/// Past the bar to the page. The address stays: it says which screen this is.
fn skip(event: MouseEvent) {
    event.prevent_default();
    platform::focus("main");
}

/// Names the page after its screen and engine, as the tablet lists it; on another screen the keyboard
/// begins at its top.
fn name_page(route: ReadSignal<Route>, engine: Memo<Option<String>>) {
    let words = use_words();
    Effect::new(move || {
        let screen = route.get().title(words);
        let engine = engine.get();
        let parts = [engine.as_deref(), Some(screen), Some(words.nav.app)];
        let title: Vec<&str> = parts.into_iter().flatten().collect();
        document().set_title(&title.join(" · "));
    });
    Effect::new(move |before: Option<Route>| {
        let now = route.get();
        if before.is_some_and(|before| before != now) {
            platform::begin_at("main");
        }
        now
    });
}

/// The bar at the top.
#[component]
fn Top(route: ReadSignal<Route>) -> impl IntoView {
    let words = use_words();
    let prefs = use_prefs();
    let store = use_card();
    let tab = move |to: fn(CardId) -> Route, name: &'static str| {
        live(move || {
            route.get().card().map(|id| {
                let to = to(id);
                view! {
                    <a class="top__tab" href=to.href()
                        aria-current=move || (route.get() == to).then_some("page")>{name}</a>
                }
                .into_any()
            })
        })
    };
    let engine = Memo::new(move |_| {
        route.get().card()?;
        store.whole(|open| {
            open.card
                .standing()
                .text(ringland_card::FactField::Name)
                .map(str::to_owned)
        })?
    });
    name_page(route, engine);
    let others = Language::ALL
        .into_iter()
        .filter(|language| *language != untrack(move || prefs.language()))
        .map(|other| {
            let turn = move || {
                prefs.set_language(other);
                // The button is made anew with everything else.
                platform::focus_on(".top__set".to_owned());
            };
            view! {
                <button class="top__set top__language" type="button" lang=other.tag() on:click=press(turn)>
                    {other.own_name()}
                </button>
            }
            .into_any()
        });
    let theme = move || prefs.theme().name(words);
    let turn = move || {
        prefs.set_theme(prefs.theme().next());
        announce(&words.common.theme_is(theme()));
    };
    view! {
        <a class="skip" href="#main" on:click=skip>{words.common.skip_to_content}</a>
        <header class="top">
            <a class="top__name" href=Route::Shelf.href()>"Ringland"</a>
            <nav class="top__tabs" aria-label=words.common.screens>
                <a class="top__tab" href=Route::Shelf.href()
                    aria-current=move || (route.get() == Route::Shelf).then_some("page")>{words.nav.shelf}</a>
                <a class="top__tab" href=Route::Plans.href()
                    aria-current=move || matches!(route.get(), Route::Plans | Route::Plan(_)).then_some("page")>{words.plans.title}</a>
                {tab(Route::Bench, words.nav.bench)}
                {tab(Route::Gauging, words.gauging.title)}
                {tab(Route::Card, words.nav.card)}
            </nav>
            <span class="top__engine">{live(move || engine.get())}</span>
            {others.collect_view()}
            <button class="top__set top__theme" type="button" aria-label=move || words.common.theme_is(theme()) on:click=press(turn)>
                {theme}
            </button>
        </header>
    }
}

/// A screen about a card: opened first, and said plainly when it cannot be.
#[component]
fn WithCard(id: CardId, #[prop(into)] page: ViewFn) -> impl IntoView {
    let words = use_words();
    let store = use_card();
    let opened = RwSignal::new(None::<Result<(), KeepError>>);
    // The database may still be opening when the page is reloaded on a card.
    let shelf = crate::store::use_shelf();
    Effect::new(move || {
        if store.is_open(id) {
            // Said once: the page is not made anew whenever the Shelf has been read.
            if opened.get_untracked() != Some(Ok(())) {
                opened.set(Some(Ok(())));
            }
            return;
        }
        let state = shelf.state();
        if state == crate::store::shelf::ShelfState::Loading {
            return;
        }
        spawn_local(async move { opened.set(Some(store.load(id).await)) });
    });
    live(move || match opened.get() {
        None => view! { <p class="waiting">{words.common.opening}</p> }.into_any(),
        Some(Ok(())) => page.run(),
        Some(Err(error)) => view! {
            <section class="trouble">
                <h1>{words.common.cannot_open}</h1>
                <p>{error.said(words)}</p>
                <a class="button" href=Route::Shelf.href()>{words.common.to_shelf}</a>
            </section>
        }
        .into_any(),
    })
}
