//! A new engine: its layout and plan, and what is known of it.

pub mod drawing;
pub mod layout;

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{
    Body, Card, Depth, Entry, Layout, Plan, builtin,
    file::{self, PlanFile},
};
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
        choice::{Choice, Offer},
        live::live,
    },
    persist::space,
    platform::{self, focus},
    route::Route,
    store::{Plans, Prefs, draft, prefs::use_words, use_plans, use_prefs, use_shelf},
};

/// The depths of the built-in plan, in the order in which they are offered. The plans of one's own for
/// the layout come after them.
const DEPTHS: [Depth; 2] = [Depth::Full, Depth::Short];

/// The screen.
#[component]
pub fn NewEnginePage() -> impl IntoView {
    let (shelf, plans, prefs, words) = (use_shelf(), use_plans(), use_prefs(), use_words());
    let layout = RwSignal::new(Layout::inline_six());
    let plan = RwSignal::new(0_usize);
    let (form, _any) = FactsForm::open().remembered(DRAFT);
    let rater = RaterForm::new(prefs);
    remember(layout, plan);
    let refused = RwSignal::new(None::<String>);
    let busy = RwSignal::new(false);
    let create = move |changes: Vec<Change>| {
        busy.set(true);
        refused.set(None);
        spawn_local(async move {
            let plan = plan_of(plans, plan.get_untracked(), &layout.get_untracked());
            let card = plan.and_then(|plan| new_card(plan, changes, prefs));
            let kept = match card {
                Ok(card) => match shelf.add(&card).await {
                    Ok(()) => Ok(card.id()),
                    Err(error) => Err(error.said(words)),
                },
                Err(error) => Err(error),
            };
            busy.set(false);
            match kept {
                Ok(id) => {
                    forget(form);
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
                <PlanGroup layout plan/>
                <FactFields form/>
                <RaterField form=rater/>
                <Foot form layout plan refused busy/>
            </form>
            <Suggestions/>
        </div>
    }
}

/// Whose draft the form's is.
const DRAFT: &str = "new";
const LAYOUT: &str = "new/layout";
const PLAN: &str = "new/plan";

/// Begins with the layout and the plan that were chosen before the page was loaded again, and
/// remembers them.
fn remember(layout: RwSignal<Layout>, plan: RwSignal<usize>) {
    // As the file of a plan, which the app can read and write as it is.
    let before = draft::recall(LAYOUT).and_then(|text| file::read_draft(text.as_bytes()).ok());
    let before = before.map(|opened| opened.file.plan.layout);
    if let Some(before) = before.filter(|layout| layout.check().is_ok()) {
        layout.set(before);
    }
    if let Some(before) = draft::recall(PLAN).and_then(|text| text.parse().ok()) {
        plan.set(before);
    }
    Effect::new(move || {
        if let Ok(plan) = layout.with(|layout| builtin(layout, Depth::Short)) {
            draft::remember(LAYOUT, &file::write_plan(&PlanFile::new(plan, None)));
        }
        draft::remember(PLAN, &plan.get().to_string());
    });
}

/// Forgets what was typed and chosen: the engine is made, or not wanted.
fn forget(form: FactsForm) {
    form.forget();
    draft::forget(LAYOUT);
    draft::forget(PLAN);
}

/// Named layouts to start from, and everything that can be different.
#[component]
pub fn LayoutGroup(
    /// The layout.
    layout: RwSignal<Layout>,
) -> impl IntoView {
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
fn PlanGroup(layout: RwSignal<Layout>, plan: RwSignal<usize>) -> impl IntoView {
    let (plans, words) = (use_plans(), use_words());
    let offers = move || {
        let layout = layout.get();
        let offer = |name: &str, count, hint: &str| Offer {
            name: format!("{name}: {}", words.facts.n_ratings(count)),
            hint: hint.to_owned(),
        };
        let [full, short] = DEPTHS.map(|depth| ratings(&layout, depth));
        let mut offers = vec![
            offer(words.facts.full, full, words.facts.full_hint),
            offer(words.facts.short, short, words.facts.short_hint),
        ];
        offers.extend(plans.for_layout(&layout).iter().map(|own| {
            let plan = own.plan();
            let name = words.plans.version_said(&plan.name, &plan.version);
            offer(&name, plan.rating_count(), "")
        }));
        // Of another layout's plans none is chosen here.
        if plan.get_untracked() >= offers.len() {
            plan.set(0);
        }
        offers
    };
    let chosen = Signal::derive(move || plan.get());
    let choose = Callback::new(move |place| plan.set(place));
    view! {
        <fieldset class="facts__group depth">
            <legend class="facts__title">{words.facts.plan_group}</legend>
            {live(move || view! {
                <Choice label=words.facts.depth name="depth" offers=offers() quiet=true chosen choose/>
            })}
            <a class="button depth__own" href=Route::Plans.href()>{words.plans.own}</a>
        </fieldset>
    }
}

/// What is about to be made, what went wrong, and the button that makes it.
#[component]
fn Foot(
    form: FactsForm,
    layout: RwSignal<Layout>,
    plan: RwSignal<usize>,
    refused: RwSignal<Option<String>>,
    busy: RwSignal<bool>,
) -> impl IntoView {
    let (plans, words) = (use_plans(), use_words());
    let line = move || {
        let layout = layout.get();
        if let Some(plan) = own_of(plans, plan.get(), &layout) {
            let name = words.plans.version_said(&plan.name, &plan.version);
            line_of(words, &layout, &name, plan.rating_count())
        } else {
            let depth = depth_of(plan.get());
            in_a_line(words, &layout, depth, ratings(&layout, depth))
        }
    };
    view! {
        <div class="facts__foot">
            <p class="facts__state num">{live(line)}</p>
            {live(move || refused.get().map(|why| view! { <p class="facts__refused" role="alert">{why}</p> }.into_any()))}
            <a class="button" href=Route::Shelf.href() on:click=press(move || forget(form))>{words.common.cancel}</a>
            <button type="submit" class="button button--act" disabled=move || busy.get()>
                {move || if busy.get() { words.common.working } else { words.facts.create }}
            </button>
        </div>
    }
}

/// How many ratings the built-in plan of a layout asks for.
fn ratings(layout: &Layout, depth: Depth) -> usize {
    builtin(layout, depth).map_or(0, |plan| plan.rating_count())
}

/// A layout and its plan in a line: `Inline 6 · full plan · 642 ratings`.
pub fn in_a_line(words: &Words, layout: &Layout, depth: Depth, ratings: usize) -> String {
    let plan = match depth {
        Depth::Full => words.facts.full,
        Depth::Short => words.facts.short,
    };
    line_of(words, layout, plan, ratings)
}

fn line_of(words: &Words, layout: &Layout, plan: &str, ratings: usize) -> String {
    format!(
        "{} · {plan} · {}",
        capitalised(&words.layout(layout)),
        words.facts.n_ratings(ratings)
    )
}

fn depth_of(chosen: usize) -> Depth {
    DEPTHS.get(chosen).copied().unwrap_or(Depth::Full)
}

/// The plan of one's own that was chosen, where it is one.
fn own_of(plans: Plans, chosen: usize, layout: &Layout) -> Option<Plan> {
    let place = chosen.checked_sub(DEPTHS.len())?;
    let own = plans.for_layout(layout).into_iter().nth(place)?;
    Some(own.file.plan)
}

fn plan_of(plans: Plans, chosen: usize, layout: &Layout) -> Result<Plan, String> {
    match own_of(plans, chosen, layout) {
        Some(plan) => Ok(plan),
        None => builtin(layout, depth_of(chosen)).map_err(|why| use_words().layout_error(&why)),
    }
}

/// A card with the facts that are known, not yet on the Shelf.
fn new_card(plan: Plan, changes: Vec<Change>, prefs: Prefs) -> Result<Card, String> {
    let words = use_words();
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
