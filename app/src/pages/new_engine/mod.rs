//! A new engine: its layout and plan, and what is known of it.

pub mod drawing;
pub mod layout;

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{Body, Card, Depth, Entry, Layout, builtin};
use ringland_report::words::{Words, capitalised};

use self::{drawing::Drawing, layout::LayoutFields};
use super::facts::{
    fields,
    form::{Change, FactFields, FactsForm},
    input::Suggestions,
    rater::{self, RaterField, RaterForm},
};
use crate::{
    app::go,
    components::{
        act::{press, send},
        choice::{Choice, Offer, place},
        live::live,
    },
    persist::space,
    platform::{self, focus},
    route::Route,
    store::{Prefs, prefs::use_words, use_prefs, use_shelf},
};

/// The depths of a plan, in the order in which they are offered.
const DEPTHS: [Depth; 2] = [Depth::Full, Depth::Short];

/// The screen.
#[component]
pub fn NewEnginePage() -> impl IntoView {
    let (shelf, prefs, words) = (use_shelf(), use_prefs(), use_words());
    let layout = RwSignal::new(Layout::inline_six());
    let depth = RwSignal::new(Depth::Full);
    let (form, rater) = (FactsForm::open(), RaterForm::new(prefs));
    let refused = RwSignal::new(None::<String>);
    let busy = RwSignal::new(false);
    let create = move |changes: Vec<Change>| {
        busy.set(true);
        refused.set(None);
        spawn_local(async move {
            let card = new_card(
                &layout.get_untracked(),
                depth.get_untracked(),
                changes,
                prefs,
            );
            let kept = match card {
                Ok(card) => match shelf.add(&card).await {
                    Ok(()) => Ok(card.id()),
                    Err(error) => Err(words.errors.storage(&error.to_string())),
                },
                Err(error) => Err(error),
            };
            busy.set(false);
            match kept {
                Ok(id) => {
                    go(Route::Bench(id));
                    space::ask_once(prefs).await;
                }
                Err(why) => refused.set(Some(why)),
            }
        });
    };
    let submit = move || match form.changes(prefs.units()) {
        Err(field) => focus(fields::id(field)),
        Ok(_) if !rater.take(prefs) => focus(rater::ID),
        Ok(_) if busy.get_untracked() => {}
        Ok(changes) => create(changes),
    };
    view! {
        <div class="facts facts--new">
            <h1>{words.facts.title}</h1>
            <p class="mute">{words.facts.open_fields}</p>
            <form class="facts__form" on:submit=send(submit) novalidate>
                <LayoutGroup layout/>
                <DepthGroup layout depth/>
                <FactFields form/>
                <RaterField form=rater/>
                <Foot layout depth refused busy/>
            </form>
            <Suggestions/>
        </div>
    }
}

/// Named layouts to start from, and everything that can be different.
#[component]
fn LayoutGroup(layout: RwSignal<Layout>) -> impl IntoView {
    let words = use_words();
    let start = [
        (words.facts.inline_of(6), Layout::inline_six()),
        (words.facts.vee_of(8), Layout::vee_eight()),
    ];
    let starts = start.into_iter().map(|(name, named)| {
        let this = named.clone();
        let on = move || layout.with(|layout| *layout == this);
        view! {
            <button type="button" class="button layout__start" aria-pressed=move || on().to_string()
                on:click=press(move || layout.set(named.clone()))>{capitalised(&name)}</button>
        }
        .into_any()
    });
    view! {
        <fieldset class="facts__group">
            <legend class="facts__title">{words.facts.layout_group}</legend>
            <div class="layout__head">
                <div class="layout__starts" role="group" aria-label=words.facts.start_from>{starts.collect_view()}</div>
                <Drawing layout/>
            </div>
            <p class="layout__said" aria-live="polite">
                {move || layout.with(|layout| capitalised(&words.layout_whole(layout)))}
            </p>
            <details class="layout__more">
                <summary class="button">{words.facts.layout_more}</summary>
                <LayoutFields layout/>
            </details>
        </fieldset>
    }
}

/// The plan, with how many ratings it asks for.
#[component]
fn DepthGroup(layout: RwSignal<Layout>, depth: RwSignal<Depth>) -> impl IntoView {
    let words = use_words();
    let offers = move || {
        let [full, short] = layout.with(|layout| DEPTHS.map(|depth| ratings(layout, depth)));
        let offer = |name: &str, count, hint: &str| Offer {
            name: format!("{name}: {}", words.facts.n_ratings(count)),
            hint: hint.to_owned(),
        };
        vec![
            offer(words.facts.full, full, words.facts.full_hint),
            offer(words.facts.short, short, words.facts.short_hint),
        ]
    };
    let chosen = Signal::derive(move || place(&DEPTHS, &depth.get()));
    let choose = Callback::new(move |place: usize| depth.set(DEPTHS[place]));
    view! {
        <fieldset class="facts__group depth">
            <legend class="facts__title">{words.facts.plan_group}</legend>
            {live(move || view! {
                <Choice label=words.facts.depth name="depth" offers=offers() quiet=true chosen choose/>
            })}
        </fieldset>
    }
}

/// What is about to be made, what went wrong, and the button that makes it.
#[component]
fn Foot(
    layout: RwSignal<Layout>,
    depth: RwSignal<Depth>,
    refused: RwSignal<Option<String>>,
    busy: RwSignal<bool>,
) -> impl IntoView {
    let words = use_words();
    let line = move || {
        layout.with(|layout| in_a_line(words, layout, depth.get(), ratings(layout, depth.get())))
    };
    view! {
        <div class="facts__foot">
            <p class="facts__state num">{live(line)}</p>
            {live(move || refused.get().map(|why| view! { <p class="facts__refused" role="alert">{why}</p> }.into_any()))}
            <a class="button" href=Route::Shelf.href()>{words.common.cancel}</a>
            <button type="submit" class="button button--act" disabled=move || busy.get()>
                {move || if busy.get() { words.common.working } else { words.facts.create }}
            </button>
        </div>
    }
}

/// How many ratings the built-in plan of a layout asks for.
fn ratings(layout: &Layout, depth: Depth) -> usize {
    builtin(layout, depth).map_or(0, |plan| plan.leaf_count())
}

/// A layout and its plan in a line: `Inline 6 · full plan · 642 ratings`.
pub fn in_a_line(words: &Words, layout: &Layout, depth: Depth, ratings: usize) -> String {
    let plan = match depth {
        Depth::Full => words.facts.full,
        Depth::Short => words.facts.short,
    };
    format!(
        "{} · {plan} · {}",
        capitalised(&words.layout(layout)),
        words.facts.n_ratings(ratings)
    )
}

/// A card with the facts that are known, not yet on the Shelf.
fn new_card(
    layout: &Layout,
    depth: Depth,
    changes: Vec<Change>,
    prefs: Prefs,
) -> Result<Card, String> {
    let words = use_words();
    let plan = builtin(layout, depth).map_err(|error| words.layout_error(&error))?;
    let mut card =
        Card::new(platform::card_id(), plan).map_err(|error| words.plan_error(&error))?;
    let rater = prefs.rater();
    for change in changes {
        let Change::Set(fact) = change else { continue };
        let (id, lamport) = (platform::entry_id(), card.next_lamport());
        let entry = Entry::new(
            id,
            prefs.device(),
            lamport,
            platform::now(),
            &rater,
            Body::Fact { fact },
        );
        let plan = card.plan().clone();
        card.append(entry)
            .map_err(|error| words.append_error(&plan, &error))?;
    }
    Ok(card)
}
