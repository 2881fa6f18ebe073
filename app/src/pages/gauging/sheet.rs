//! Size sheets: the new sizes and wear limits that the engine is held against.

use leptos::{ev::Event, html, prelude::*, task::spawn_local};
use ringland_assess::gauging::thumb;
use ringland_card::{
    Body, CharacteristicId, PlaceId, SizesId, file,
    gauging::{Size, SizeField, SizeSheet, Unit},
};
use ringland_report::{
    format::{file_name, parse_decimal, parse_number, size_unit},
    gauging::sizes_form,
};
use wasm_bindgen::JsCast;
use web_sys::{Element, File, HtmlInputElement, HtmlSelectElement};

use super::state::Gauging;
use crate::{
    app::announce,
    components::{
        act::{press, text},
        file_button::FileButton,
        live::live,
    },
    persist::{sheets::StoredSheet, transfer},
    platform,
    store::{
        open::{Draft, refusal},
        prefs::use_words,
        use_prefs,
    },
};

/// A `Copy` handle on the sheet under the hand.
#[derive(Clone, Copy)]
struct Desk {
    page: Gauging,
    /// Those on this tablet.
    kept: RwSignal<Vec<(SizesId, SizeSheet)>>,
    /// Which of them is under the hand; none for the card's own, or a new one.
    id: RwSignal<Option<SizesId>>,
    sheet: RwSignal<SizeSheet>,
    /// Draws the table anew.
    drawn: Trigger,
    said: RwSignal<Option<String>>,
    wrong: RwSignal<Option<String>>,
}

fn empty() -> SizeSheet {
    SizeSheet {
        name: String::new(),
        source: String::new(),
        break_in_m: None,
        sizes: Vec::new(),
    }
}

impl Desk {
    fn say(self, said: String) {
        announce(&said);
        self.wrong.set(None);
        self.said.set(Some(said));
    }

    fn refuse(self, why: String) {
        self.said.set(None);
        self.wrong.set(Some(why));
    }

    /// Reads the sheets of this tablet.
    fn read(self) {
        let Some(db) = self.page.eyes.store.db() else {
            return;
        };
        spawn_local(async move {
            let stored = db.sheets().await.unwrap_or_default();
            let sheets = stored.iter().filter_map(|stored| {
                let opened = file::read_sizes(stored.file.as_bytes()).ok()?;
                Some((stored.id, opened.sheet))
            });
            self.kept.set(sheets.collect());
        });
    }

    /// Takes a sheet to hand.
    fn take(self, id: Option<SizesId>, sheet: SizeSheet) {
        self.id.set(id);
        self.sheet.set(sheet);
        self.wrong.set(None);
        self.drawn.notify();
    }

    /// Refuses a sheet that contradicts itself or the plan; nothing where it is right.
    fn check(self) -> Option<String> {
        let sheet = self.sheet.get_untracked();
        let plan = self.page.eyes.store.peek(|open| open.card.plan().clone())?;
        let why = sheet.check_for(&plan).err()?;
        Some(use_words().size_error(&why))
    }

    /// The sizes that do not fit what this engine's plan measures, each in a sentence.
    fn misfits(self) -> Vec<String> {
        let words = use_words();
        let told = self.sheet.with(|sheet| {
            self.page.eyes.store.peek(|open| {
                let all = sheet.misfits(open.card.plan());
                all.map(|why| words.size_error(&why)).collect()
            })
        });
        told.unwrap_or_default()
    }

    fn keep(self) {
        if let Some(why) = self.check() {
            return self.refuse(why);
        }
        let (sheet, known) = (self.sheet.get_untracked(), self.id.get_untracked());
        let Some(db) = self.page.eyes.store.db() else {
            return;
        };
        spawn_local(async move {
            let id = known.unwrap_or_else(platform::sizes_id);
            let stored = StoredSheet {
                id,
                file: file::write_sizes(&sheet),
            };
            match db.keep_sheet(&stored).await {
                Ok(()) => {
                    self.id.set(Some(id));
                    self.say(use_words().gauging.sheet_taken(&sheet.name));
                    self.read();
                }
                Err(error) => self.refuse(error.said(use_words())),
            }
        });
    }

    fn delete(self) {
        let (Some(db), Some(id)) = (self.page.eyes.store.db(), self.id.get_untracked()) else {
            return;
        };
        let name = self.sheet.with_untracked(|sheet| sheet.name.clone());
        spawn_local(async move {
            match db.remove_sheet(id).await {
                Ok(()) => {
                    self.id.set(None);
                    self.say(use_words().gauging.sheet_deleted(&name));
                    self.read();
                }
                Err(error) => self.refuse(error.said(use_words())),
            }
        });
    }

    /// Holds the engine against it: the sheet goes onto the card, whole.
    fn hold(self) {
        if let Some(why) = self.check() {
            return self.refuse(why);
        }
        let sheet = self.sheet.get_untracked();
        let store = self.page.eyes.store;
        store.after(move || async move {
            let name = sheet.name.clone();
            let body = Body::Sizes {
                sheet: Box::new(sheet),
            };
            match store.keep(vec![Draft::from(body)]).await {
                Ok(()) => self.say(use_words().gauging.sheet_used(&name)),
                Err(why) => {
                    let said = store.peek(|open| refusal(use_words(), open.card.plan(), &why));
                    self.refuse(said.unwrap_or_default());
                }
            }
        });
    }

    fn save(self) {
        let (sheet, words) = (self.sheet.get_untracked(), use_words());
        let name = file_name(&sheet.name, "sizes", ".sizes.json");
        match transfer::save_text(&name, "application/json", &file::write_sizes(&sheet)) {
            Ok(()) => self.say(words.gauging.sheet_saved(&sheet.name)),
            Err(_refused) => self.refuse(words.files.not_saved.to_owned()),
        }
    }

    fn open(self, files: Vec<File>) {
        let Some(picked) = files.into_iter().next() else {
            return;
        };
        spawn_local(async move {
            let words = use_words();
            let Ok(bytes) = transfer::bytes(&picked).await else {
                return self.refuse(words.files.unread.to_owned());
            };
            match file::read_sizes(&bytes) {
                Ok(opened) => {
                    let altered = !opened.digest_matches;
                    self.take(None, opened.sheet);
                    if altered {
                        self.refuse(words.gauging.sheet_altered.to_owned());
                    }
                }
                Err(error) => self.refuse(words.sizes_file_error(&error)),
            }
        });
    }

    fn thumb(self) {
        let words = use_words();
        let mut sources: Vec<&str> = Vec::new();
        self.sheet.update(|sheet| {
            for size in &mut sheet.sizes {
                for rule in thumb::fill(size) {
                    if !sources.contains(&rule.source) {
                        sources.push(rule.source);
                    }
                }
            }
            let said = words.gauging.of_thumb;
            if !sources.is_empty() && !sheet.source.contains(said) {
                let parts = [sheet.source.as_str(), said, &sources.join(", ")];
                let parts = parts.into_iter().filter(|part| !part.is_empty());
                sheet.source = parts.collect::<Vec<_>>().join(" · ");
            }
        });
        self.drawn.notify();
        self.say(words.gauging.of_thumb_hint.to_owned());
    }

    /// A figure or a unit of the table was changed.
    fn changed(self, event: &Event) {
        let Some(target) = event.target().and_then(|it| it.dyn_into::<Element>().ok()) else {
            return;
        };
        let attribute = |name: &str| target.get_attribute(name);
        let (Some(place), Some(look), Some(what)) = (
            attribute("data-place").and_then(|id| PlaceId::new(&id).ok()),
            attribute("data-look").and_then(|id| CharacteristicId::new(&id).ok()),
            attribute("data-size"),
        ) else {
            return;
        };
        let unit = size_unit(use_prefs().units());
        let size = |sheet: &mut SizeSheet, change: &dyn Fn(&mut Size)| {
            let known = sheet.sizes.iter_mut();
            let mut known = known.filter(|size| size.place == place && size.characteristic == look);
            if let Some(size) = known.next() {
                return change(size);
            }
            let mut size = Size::open(place.clone(), look.clone(), unit);
            change(&mut size);
            sheet.sizes.push(size);
        };
        if what == "unit" {
            let chosen = target
                .dyn_ref::<HtmlSelectElement>()
                .map(HtmlSelectElement::value);
            if let Some(unit) = chosen.and_then(|unit| Unit::parse(&unit)) {
                self.sheet
                    .update(|sheet| size(sheet, &|size| size.unit = unit));
            }
            return;
        }
        let Some(field) = SizeField::ALL
            .into_iter()
            .find(|field| field.as_str() == what)
        else {
            return;
        };
        let typed = target
            .dyn_ref::<HtmlInputElement>()
            .map(HtmlInputElement::value);
        let typed = typed.unwrap_or_default();
        let figure = match typed.trim() {
            "" => Ok(None),
            typed => parse_decimal(typed).map(Some),
        };
        let _marked = match &figure {
            Ok(_) => target.remove_attribute("aria-invalid"),
            Err(_) => target.set_attribute("aria-invalid", "true"),
        };
        match figure {
            Err(error) => self.refuse(use_words().number_error(&error)),
            Ok(figure) => {
                // A unit that the table shows is the size's from its first figure on.
                let shown = unit_shown(&target);
                self.sheet.update(|sheet| {
                    size(sheet, &|size| {
                        if size.is_open()
                            && let Some(unit) = shown
                        {
                            size.unit = unit;
                        }
                        size.field_mut(field).clone_from(&figure);
                    });
                    sheet.sizes.retain(|size| !size.is_open());
                });
                match self.check() {
                    Some(why) => self.refuse(why),
                    None => self.wrong.set(None),
                }
            }
        }
    }
}

/// The unit chosen in the row of a field.
fn unit_shown(field: &Element) -> Option<Unit> {
    let row = field.closest("tr").ok().flatten()?;
    let choice = row.query_selector("select").ok().flatten()?;
    Unit::parse(&choice.dyn_into::<HtmlSelectElement>().ok()?.value())
}

/// The sheets of this tablet, and the one under the hand.
#[component]
pub(super) fn Sheets(page: Gauging) -> impl IntoView {
    let (words, prefs) = (use_words(), use_prefs());
    let g = &words.gauging;
    let own = move || {
        page.peek(|gauger| gauger.standing.size_sheet().cloned())
            .flatten()
    };
    let desk = Desk {
        page,
        kept: RwSignal::new(Vec::new()),
        id: RwSignal::new(None),
        sheet: RwSignal::new(own().unwrap_or_else(empty)),
        drawn: Trigger::new(),
        said: RwSignal::new(None),
        wrong: RwSignal::new(None),
    };
    desk.read();
    let table = NodeRef::<html::Div>::new();
    Effect::new(move || {
        desk.drawn.track();
        let Some(table) = table.get() else { return };
        let unit = size_unit(prefs.units());
        let sheet = desk.sheet.get_untracked();
        let markup = page
            .eyes
            .store
            .peek(|open| sizes_form(open.card.plan(), &sheet, unit, words));
        table.set_inner_html(&markup.unwrap_or_default());
    });
    let options = move || {
        let kept = desk.kept.get();
        let own = own().map(|sheet| sheet.name);
        view! {
            <option value="">{g.choose_sheet}</option>
            {own.map(|name| view! { <option value="card">{g.own_sheet(&name)}</option> }.into_any())}
            {kept.into_iter().map(|(id, sheet)| view! { <option value=id.to_string()>{sheet.name}</option> }.into_any()).collect_view()}
            <option value="new">{g.new_sheet}</option>
        }
        .into_any()
    };
    let choose = move |chosen: String| match chosen.as_str() {
        "card" => desk.take(None, own().unwrap_or_else(empty)),
        "new" => desk.take(None, empty()),
        id => {
            let kept = desk.kept.get_untracked().into_iter();
            if let Some((id, sheet)) = { kept }.find(|(known, _)| known.to_string() == id) {
                desk.take(Some(id), sheet);
            }
        }
    };
    view! {
        <div class="sheets">
            <div class="sheets__acts">
                <label class="field">
                    <span class="field__label">{g.sheet}</span>
                    <select class="field__input" id="choose-sheet" on:change=text(choose)>{live(options)}</select>
                </label>
                <FileButton label=g.open_sheet id="open-sheet" picked=Callback::new(move |files| desk.open(files))/>
                <button type="button" class="button" on:click=press(move || desk.save())>{g.save_sheet}</button>
            </div>
            <p class="fine">{g.no_sheet_hint}</p>
            <Head desk/>
            <div id="sheet-misfits" aria-live="polite">{live(move || misfits(desk))}</div>
            <div node_ref=table on:change=move |event| desk.changed(&event)></div>
            {live(move || desk.wrong.get().map(|why| view! { <p class="pad__refused" role="alert">{why}</p> }.into_any()))}
            <p class="fine" role="status">{move || desk.said.get().unwrap_or_default()}</p>
            <div class="panel__acts sheets__foot">
                <button type="button" class="button button--act" id="hold" on:click=press(move || desk.hold())>{g.use_sheet}</button>
                <button type="button" class="button" id="keep-sheet" on:click=press(move || desk.keep())>{g.keep}</button>
                <button type="button" class="button" on:click=press(move || desk.thumb())>{g.fill_of_thumb}</button>
                {live(move || desk.id.get().is_some().then(|| view! {
                    <button type="button" class="button button--quiet" on:click=press(move || desk.delete())>{use_words().gauging.delete_sheet}</button>
                }.into_any()))}
            </div>
        </div>
    }
}

/// What of the sheet under the hand this engine has no use for, but for what is told as wrong already.
fn misfits(desk: Desk) -> AnyView {
    let wrong = desk.wrong.get();
    let told = desk.misfits().into_iter();
    told.filter(|why| wrong.as_ref() != Some(why))
        .map(|why| view! { <p class="pad__refused">{why}</p> }.into_any())
        .collect_view()
        .into_any()
}

/// The name of the sheet, where its figures come from, and its break-in.
#[component]
fn Head(desk: Desk) -> impl IntoView {
    let (words, prefs) = (use_words(), use_prefs());
    let g = &words.gauging;
    let break_in = move |typed: String| {
        let figure = parse_number(&typed).ok();
        let metres = figure.map(|figure| prefs.units().distance.length(figure).value);
        desk.sheet.update(|sheet| sheet.break_in_m = metres);
    };
    let break_in_said = move || {
        let metres = desk.sheet.with(|sheet| sheet.break_in_m);
        metres.map_or_else(String::new, |metres| {
            let distance = prefs.units().distance;
            let metre = distance.length(1.0).value;
            words.numbers.plain(metres / metre)
        })
    };
    view! {
        <div class="sheets__head">
                <label class="field">
                    <span class="field__label">{g.sheet_name}</span>
                    <input class="field__input" id="sheet-name" autocomplete="off" prop:value=move || desk.sheet.with(|sheet| sheet.name.clone())
                        on:input=text(move |name| desk.sheet.update(|sheet| sheet.name = name))/>
                </label>
                <label class="field">
                    <span class="field__label">{g.sheet_source}</span>
                    <input class="field__input" id="sheet-source" autocomplete="off" placeholder=g.sheet_source_hint
                        prop:value=move || desk.sheet.with(|sheet| sheet.source.clone())
                        on:input=text(move |source| desk.sheet.update(|sheet| sheet.source = source))/>
                </label>
                <label class="field">
                    <span class="field__label">{g.break_in_distance}</span>
                    <span class="fact__row">
                        <input class="field__input num" id="sheet-break-in" inputmode="decimal" autocomplete="off"
                            prop:value=break_in_said on:change=text(break_in)/>
                        <span class="fact__unit">{prefs.units().distance.symbol()}</span>
                    </span>
                </label>
            </div>
    }
}
