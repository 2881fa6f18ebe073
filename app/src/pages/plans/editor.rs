//! The editor of a plan of one's own.
//!
//! What stands on the page is made by [`ringland_report::plan`]; here it is put up, and what is typed,
//! switched and pressed is handed to the plan, kept at once, and what is wrong and what differs shown
//! anew. Fields stay as they are while they are worked on; only switches and buttons make rows anew.

use leptos::{
    ev::{Event, MouseEvent},
    html,
    prelude::*,
};
use ringland_card::{
    Plan, PlanId, ScaleId,
    plan::{
        Criterion, EditError, Field, NewRow, NewSize, PlanItem, Problem, TradeFigure, Under, Way,
    },
};
use ringland_report::{
    format::parse_number,
    markup::Html,
    plan::{
        AXES, MAKES, MATERIALS, Mark, NEW_CAP, NEW_CRITERION, NEW_SIZE, PagePart, PlanSheet,
        QUANTITIES, WEARS, field_id, fold_of,
    },
    words::{Words, capitalised},
};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, HtmlInputElement, HtmlSelectElement};

use super::{press::pressed, save};
use crate::{
    app::announce,
    components::live::live,
    route::Route,
    store::{CardStore, Plans, plans::OwnPlan, prefs::use_words, use_card, use_plans},
};

/// The screen.
#[component]
pub fn PlanPage(
    /// Which plan.
    id: PlanId,
) -> impl IntoView {
    let (plans, words) = (use_plans(), use_words());
    live(move || match plans.ready() {
        false => view! { <p class="waiting">{words.common.opening}</p> }.into_any(),
        true if plans.open(id) => view! { <Editor plans/> }.into_any(),
        true => view! {
            <section class="trouble">
                <h1>{words.plans.missing}</h1>
                <a class="button" href=Route::Plans.href()>{words.plans.to_plans}</a>
            </section>
        }
        .into_any(),
    })
}

#[component]
fn Editor(plans: Plans) -> impl IntoView {
    let editor = Editing {
        page: NodeRef::new(),
        kept: RwSignal::new(None),
        words: use_words(),
        plans,
        store: use_card(),
    };
    let markup = editor.shown(&|sheet, problems, own| {
        let origin = own.file.derived_from.as_ref();
        sheet.page(origin, problems, &Route::Plans.href())
    });
    view! {
        <article class="plan" node_ref=editor.page on:click=move |event| editor.press(&event)
            on:change=move |event| editor.change(&event) inner_html=markup></article>
        <p class="plan__kept fine" role="status">{live(move || editor.kept.get())}</p>
    }
}

/// A `Copy` handle on the page of the plan that is open.
#[derive(Clone, Copy)]
struct Editing {
    page: NodeRef<html::Article>,
    kept: RwSignal<Option<String>>,
    words: &'static Words,
    plans: Plans,
    store: CardStore,
}

impl Editing {
    /// What is made of the plan as it now is.
    fn shown(self, make: &dyn Fn(&PlanSheet<'_>, &[Problem], &OwnPlan) -> String) -> String {
        let mut made = String::new();
        self.plans.draft(&mut |draft| {
            let problems = draft.own.plan().problems();
            let sheet = PlanSheet::new(draft.own.plan(), &draft.parent, self.words);
            made = make(&sheet, &problems, &draft.own);
        });
        made
    }

    /// Changes the plan and keeps it.
    fn edit(
        self,
        change: &dyn Fn(&mut Plan, &Plan) -> Result<PlanItem, EditError>,
    ) -> Result<PlanItem, EditError> {
        let (mut done, mut now) = (Err(EditError::NotThere), None);
        self.plans.draft(&mut |draft| {
            let mut plan = draft.own.file.plan.clone();
            done = change(&mut plan, &draft.parent);
            if done.is_ok() {
                draft.own.file.plan = plan;
                now = Some(draft.own.clone());
            }
        });
        let (words, plans, kept) = (self.words, self.plans, self.kept);
        if let Some(own) = now {
            self.store.after(move || async move {
                let said = match plans.keep(own, false).await {
                    Ok(()) => words.plans.kept.to_owned(),
                    Err(why) => why.said(words),
                };
                // The page may have been left by now.
                let _gone = kept.try_set(Some(said));
            });
        }
        done
    }

    /// Something on the page was typed, chosen or switched.
    fn change(self, event: &Event) {
        if let Some(switch) = pressed(event, "[data-act=switch]") {
            self.switch(&switch);
        } else if let Some(field) = pressed(event, "[data-field]") {
            self.set(&field);
        }
    }

    fn set(self, element: &Element) {
        let Some((item, field)) = item_of(element).zip(field_of(element)) else {
            return;
        };
        let typed = value_of(element);
        let chosen = element.has_attribute("data-choose");
        let set = if chosen {
            self.choose(&item, field, &typed)
        } else {
            self.set_field(&item, field, typed.trim())
        };
        let id = field_id(&item, field);
        self.plans.draft(&mut |draft| {
            draft.unread.retain(|mark| mark.field != id);
            if let Err(why) = &set {
                let (field, why) = (id.clone(), why.clone());
                draft.unread.push(Mark { field, why });
            }
        });
        if chosen {
            // What stands beside it may be another now.
            self.redraw(part_of(&item));
            focus_at(&element.id());
        }
        self.refresh();
    }

    fn choose(self, item: &PlanItem, field: Field, name: &str) -> Result<PlanItem, String> {
        let chosen = self.edit(&|plan, _parent| {
            plan.choose(item, field, name)?;
            Ok(item.clone())
        });
        chosen.map_err(|why| self.words.edit_error(&why))
    }

    fn set_field(self, item: &PlanItem, field: Field, typed: &str) -> Result<PlanItem, String> {
        let figure = match field {
            Field::Name | Field::Version | Field::Label => None,
            Field::Factor if typed.is_empty() => None,
            _ => Some(parse_number(typed).map_err(|why| self.words.number_error(&why))?),
        };
        let set = self.edit(&|plan, _parent| {
            match (figure, item, field) {
                (Some(figure), ..) => plan.set_figure(item, field, figure)?,
                (None, PlanItem::LocationFactor(look), _) => plan.clear_location_factor(look),
                (None, ..) => plan.set_text(item, field, typed)?,
            }
            Ok(item.clone())
        });
        set.map_err(|why| self.words.edit_error(&why))
    }

    fn switch(self, switch: &Element) {
        let Some(item) = item_of(switch) else { return };
        let on = switch
            .dyn_ref::<HtmlInputElement>()
            .is_some_and(HtmlInputElement::checked);
        let done = self.edit(&|plan, parent| {
            if on {
                plan.put_back(parent, &item)?;
            } else {
                plan.switch_off(&item)?;
            }
            Ok(item.clone())
        });
        self.after_rows(&item, done);
    }

    /// Makes the rows around an item anew, and goes to what came of it.
    fn after_rows(self, item: &PlanItem, done: Result<PlanItem, EditError>) {
        let part = part_of(item);
        self.redraw(part);
        match (part, item) {
            (PagePart::Rows, _) => self.redraw(PagePart::Scales),
            // Rows may use it now.
            (_, PlanItem::Scale(_)) => self.redraw(PagePart::Rows),
            _ => {}
        }
        if part != PagePart::Criteria {
            // What the rules can look at, and how it is rated, may be another now.
            self.redraw(PagePart::Caps);
        }
        self.refresh();
        match done {
            Ok(item) => self.go(&item, None),
            Err(why) => announce(&self.words.edit_error(&why)),
        }
    }

    /// A press somewhere on the page.
    fn press(self, event: &MouseEvent) {
        if let Some(summary) = pressed(event, "summary") {
            if let Some(details) = summary.parent_element() {
                self.fill(&details);
            }
            return;
        }
        let Some(button) = pressed(event, "button[data-act]") else {
            return;
        };
        let item = item_of(&button);
        match (button.get_attribute("data-act").as_deref(), item) {
            (Some("go"), Some(item)) => self.go(&item, field_of(&button)),
            (Some("problems"), _) => focus_at("plan-problems"),
            (Some("save"), _) => {
                let said = self.shown(&|_sheet, _problems, own| save(self.words, own));
                announce(&said);
                self.kept.set(Some(said));
            }
            (Some("up"), Some(item)) => self.shift(&item, Way::Up),
            (Some("down"), Some(item)) => self.shift(&item, Way::Down),
            (Some("remove"), Some(item)) => {
                let owner = item.owner();
                let done = self.edit(&|plan, _parent| {
                    plan.switch_off(&item)?;
                    Ok(owner.clone())
                });
                self.after_rows(&item, done);
            }
            (Some("add"), _) => self.add(&button),
            _ => {}
        }
    }

    /// Moves an item past the one beside it; the focus stays on the button, or goes to the other one
    /// where the item can go no further.
    fn shift(self, item: &PlanItem, way: Way) {
        let moved = self.edit(&|plan, _parent| {
            plan.move_item(item, way)?;
            Ok(item.clone())
        });
        if let Err(why) = moved {
            announce(&self.words.edit_error(&why));
            return;
        }
        self.redraw(part_of(item));
        self.refresh();
        let item_id = item.to_string();
        let (here, there) = match way {
            Way::Up => ("up:", "down:"),
            Way::Down => ("down:", "up:"),
        };
        let here = [here, &item_id].concat();
        let further = document().get_element_by_id(&here);
        if further.is_some_and(|button| !button.has_attribute("disabled")) {
            focus_at(&here);
        } else {
            focus_at(&[there, &item_id].concat());
        }
        let name = self.shown(&|sheet, _problems, _own| sheet.name(item));
        announce(&match way {
            Way::Up => self.words.plans.moved_up(&name),
            Way::Down => self.words.plans.moved_down(&name),
        });
    }

    /// Adds what the form around a button says.
    fn add(self, button: &Element) {
        let form = button.closest("[data-add]").ok().flatten();
        let Some(form) = form else { return };
        let under = form.get_attribute("data-add").unwrap_or_default();
        let added = match (under.as_str(), PlanItem::parse(&under)) {
            (NEW_CAP, _) => {
                let (name, node) = (typed_in(&form, "name"), typed_in(&form, "node"));
                self.edit(&|plan, _parent| plan.add_cap(&name, &node))
                    .map_err(|why| self.words.edit_error(&why))
            }
            (NEW_CRITERION, _) => self.add_criterion(&form),
            (NEW_SIZE, _) => self
                .add_size(&form)
                .map_err(|why| self.words.edit_error(&why)),
            (_, Some(PlanItem::Scale(scale))) => self.add_to_scale(&scale, &form),
            (_, Some(under)) => self
                .add_under(&under, &form)
                .map_err(|why| self.words.edit_error(&why)),
            (_, None) => return,
        };
        match added {
            Ok(item) => {
                let name = self.shown(&|sheet, _problems, _own| sheet.name(&item));
                self.after_rows(&item, Ok(item.clone()));
                announce(&self.words.plans.added(&name));
            }
            Err(why) => {
                if let Ok(Some(place)) = form.query_selector("[data-refused]") {
                    place.set_text_content(Some(&why));
                }
            }
        }
    }

    /// The figure in a field of a form.
    fn figure_in(self, form: &Element, field: Field) -> Result<f64, String> {
        parse_number(&typed_in(form, field.as_str())).map_err(|why| {
            let name = capitalised(self.words.plan_field(field));
            let why = self.words.number_error(&why);
            self.words.plans.problem(&name, &why)
        })
    }

    fn add_to_scale(self, scale: &ScaleId, form: &Element) -> Result<PlanItem, String> {
        let figures = [Field::Factor, Field::Merit, Field::Score].into_iter();
        let figure = figures
            .map(|field| (field, in_form(form, field.as_str())))
            .find_map(|(field, found)| found.map(|_| self.figure_in(form, field)))
            .unwrap_or(Ok(0.0))?;
        let added = if in_form(form, "name").is_some() {
            let name = typed_in(form, "name");
            self.edit(&|plan, _parent| plan.add_level(scale, &name, figure))
        } else {
            let x = self.figure_in(form, Field::X)?;
            self.edit(&|plan, _parent| plan.add_point(scale, (x, figure).into()))
        };
        added.map_err(|why| self.words.edit_error(&why))
    }

    fn add_criterion(self, form: &Element) -> Result<PlanItem, String> {
        let figure = TradeFigure::parse(&typed_in(form, Field::Figure.as_str()));
        let figure = figure.ok_or_else(|| self.words.edit_error(&EditError::NotThere))?;
        let criterion = Criterion {
            figure,
            weight: self.figure_in(form, Field::Weight)?,
            best: self.figure_in(form, Field::Best)?,
            anchor: self.figure_in(form, Field::Anchor)?,
            limit: self.figure_in(form, Field::Limit)?,
        };
        self.edit(&|plan, _parent| Ok(plan.add_criterion(criterion.clone())))
            .map_err(|why| self.words.edit_error(&why))
    }

    fn add_size(self, form: &Element) -> Result<PlanItem, EditError> {
        let typed = |what: &str| typed_in(form, what);
        let size = NewSize {
            name: typed("name"),
            quantity: offered(&QUANTITIES, &typed("quantity")).ok_or(EditError::NotThere)?,
            wears: offered(&WEARS, &typed("wears")).ok_or(EditError::NotThere)?,
            makes: offered(&MAKES, &typed("makes")).ok_or(EditError::NotThere)?,
            stations: typed("stations"),
            axes: typed("axes"),
            material: offered(&MATERIALS, &typed("material")),
        };
        self.edit(&|plan, _parent| plan.add_size(&size))
    }

    fn add_under(self, under: &PlanItem, form: &Element) -> Result<PlanItem, EditError> {
        let typed = |what: &str| typed_in(form, what);
        let scale = ScaleId::new(&typed("scale")).map_err(|_no_id| EditError::NotThere)?;
        let (name, look) = (typed("name"), typed("look"));
        let at = match under {
            PlanItem::Place(..) => {
                return self.edit(&|plan, _parent| plan.add_look(under, &look, &scale));
            }
            PlanItem::Part(section, part) => Under::Part(section.clone(), part.clone()),
            PlanItem::Section(section) => Under::NewPart(section.clone(), name.clone()),
            _ => Under::NewSection(name.clone()),
        };
        let axis = offered(&AXES, &typed("axis")).ok_or(EditError::NotThere)?;
        let row = NewRow {
            under: at,
            name,
            axis,
            each: typed("each").parse().unwrap_or_default(),
            look,
            scale,
        };
        self.edit(&|plan, _parent| plan.add_row(&row))
    }

    /// Gives a `details` what belongs in it, once.
    fn fill(self, details: &Element) {
        let fill = details.get_attribute("data-fill");
        if let (1, Some(fill)) = (details.child_element_count(), fill) {
            let inside = self.shown(&|sheet, _problems, _own| sheet.inside(&fill));
            // Markup of our own; a browser that refuses it leaves the row closed.
            let _filled = details.insert_adjacent_html("beforeend", &inside);
            self.mark();
        }
    }

    fn part(self, part: PagePart) -> Option<Element> {
        self.select(&["[data-part=", part.as_str(), "]"].concat())
            .pop()
    }

    fn part_now(self, part: PagePart) -> String {
        self.shown(&|sheet, problems, _own| sheet.part_of(part, problems))
    }

    /// Makes a part of the page anew; what was open stays open.
    fn redraw(self, part: PagePart) {
        let Some(element) = self.part(part) else {
            return;
        };
        let opened = self.select(&["[data-part=", part.as_str(), "] > details[open]"].concat());
        let opened: Vec<String> = opened
            .iter()
            .filter_map(|details| details.get_attribute("data-fill"))
            .collect();
        element.set_inner_html(&self.part_now(part));
        for fill in opened {
            self.open(&fill);
        }
    }

    fn open(self, fill: &str) {
        let all = self.select("details[data-fill]");
        let is = |details: &&Element| details.get_attribute("data-fill").as_deref() == Some(fill);
        if let Some(details) = all.iter().find(is) {
            self.fill(details);
            let _open = details.set_attribute("open", "");
        }
    }

    /// Shows what is wrong and what differs now.
    fn refresh(self) {
        for part in [
            PagePart::Line,
            PagePart::Problems,
            PagePart::Differs,
            PagePart::Foot,
        ] {
            if let Some(element) = self.part(part) {
                element.set_inner_html(&self.part_now(part));
            }
        }
        if let Some(title) = self.select("#plan-title").pop() {
            let name = self.shown(&|sheet, _problems, _own| sheet.plan.name.clone());
            title.set_text_content(Some(&name));
        }
        for said in self.select("[data-said]") {
            if let Some(item) = said.get_attribute("data-said") {
                let rule = self.shown(&|sheet, _problems, _own| sheet.rule_said(&item));
                said.set_text_content(Some(&rule));
            }
        }
        self.mark();
    }

    /// Marks the fields that hold something wrong, each with what is wrong beside it.
    fn mark(self) {
        for old in self.select(".plan-why--mark") {
            old.remove();
        }
        for field in self.select("[aria-invalid]") {
            let _unmarked = field.remove_attribute("aria-invalid");
            let _unmarked = field.remove_attribute("aria-describedby");
        }
        let mut marks = Vec::new();
        self.plans.draft(&mut |draft| {
            let problems = draft.own.plan().problems();
            let sheet = PlanSheet::new(draft.own.plan(), &draft.parent, self.words);
            marks = sheet.marks(&problems);
            marks.extend(draft.unread.iter().cloned());
        });
        for mark in marks {
            mark_one(&mark);
        }
    }

    /// Goes to an item or one of its fields, opening what it stands in.
    fn go(self, item: &PlanItem, field: Option<Field>) {
        if let Some(fold) = fold_of(item) {
            self.open(&fold);
        }
        let ids = [
            field.map(|field| field_id(item, field)),
            Some(item.to_string()),
        ];
        let found = ids
            .into_iter()
            .flatten()
            .find(|id| document().get_element_by_id(id).is_some());
        if let Some(id) = found {
            focus_at(&id);
            return;
        }
        // A scale as a whole: its first field, or where it stands.
        let fold = fold_of(item).unwrap_or_default();
        let within = ["details[data-fill=\"", &fold, "\"] "].concat();
        let first = self.select(&[&within, "input, ", &within, "summary"].concat());
        match first.get(1).or(first.first()) {
            Some(element) => focus_on(element),
            None => focus_at(&["plan-", part_of(item).as_str()].concat()),
        }
    }

    fn select(self, selector: &str) -> Vec<Element> {
        let found = self
            .page
            .get_untracked()
            .and_then(|page| page.query_selector_all(selector).ok());
        let Some(found) = found else {
            return Vec::new();
        };
        (0..found.length())
            .filter_map(|number| found.get(number)?.dyn_into().ok())
            .collect()
    }
}

/// The part of the page in which an item stands.
fn part_of(item: &PlanItem) -> PagePart {
    match item {
        PlanItem::Cap(_) => PagePart::Caps,
        PlanItem::Criterion(_) => PagePart::Criteria,
        PlanItem::Scale(_)
        | PlanItem::Grade(..)
        | PlanItem::Level(..)
        | PlanItem::State(..)
        | PlanItem::Point(..) => PagePart::Scales,
        _ => PagePart::Rows,
    }
}

/// What stands in a list of offers under a name.
fn offered<T: Copy>(offers: &[(&str, T)], name: &str) -> Option<T> {
    let mut offers = offers.iter();
    offers
        .find(|(known, _)| *known == name)
        .map(|(_, offer)| *offer)
}

fn in_form(form: &Element, what: &str) -> Option<Element> {
    let field = form.query_selector(&["[data-new=", what, "]"].concat());
    field.ok().flatten()
}

fn typed_in(form: &Element, what: &str) -> String {
    in_form(form, what).map_or(String::new(), |field| value_of(&field))
}

fn focus_at(id: &str) {
    if let Some(element) = document().get_element_by_id(id) {
        focus_on(&element);
    }
}

fn focus_on(element: &Element) {
    if let Some(element) = element.dyn_ref::<HtmlElement>() {
        // The browser brings it on screen, where it is not already.
        let _focused = element.focus();
    }
}

fn mark_one(mark: &Mark) {
    let Some(field) = document().get_element_by_id(&mark.field) else {
        return;
    };
    let id = ["why:", &mark.field].concat();
    if field.matches("input, select").unwrap_or(false) {
        let _marked = field.set_attribute("aria-invalid", "true");
        let _marked = field.set_attribute("aria-describedby", &id);
    }
    let mut html = Html::new();
    html.with("span class=\"plan-why plan-why--mark\"", &[("id", &id)]);
    html.text(&mark.why).close("span");
    let _shown = field.insert_adjacent_html("afterend", &html.done());
}

fn item_of(element: &Element) -> Option<PlanItem> {
    PlanItem::parse(&element.get_attribute("data-item")?)
}

fn field_of(element: &Element) -> Option<Field> {
    Field::parse(&element.get_attribute("data-field")?)
}

fn value_of(element: &Element) -> String {
    if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
        return input.value();
    }
    let select = element.dyn_ref::<HtmlSelectElement>();
    select.map(HtmlSelectElement::value).unwrap_or_default()
}
