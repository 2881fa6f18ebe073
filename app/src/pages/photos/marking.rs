//! Drawing a mark on a photo, with a finger, a pen or a mouse.

use leptos::prelude::*;
use ringland_card::{
    EntryId, Mark,
    gauging::{Decimal, Quantity, Unit},
    photo::{LONGEST_LABEL, MOST_CORNERS, Picture, Point},
};
use ringland_report::words::Words;
use web_sys::PointerEvent;

use super::pointing::{closes, hold, place};
use crate::{
    components::{
        act::{press, send, text},
        live::live,
    },
    store::{Photos, prefs::use_words, use_photos},
};

/// What is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tool {
    Arrow,
    Outline,
    Note,
    Scale,
    Length,
}

impl Tool {
    const ALL: [Self; 5] = [
        Self::Arrow,
        Self::Outline,
        Self::Note,
        Self::Scale,
        Self::Length,
    ];

    fn name(self, words: &Words) -> &'static str {
        let photos = &words.photos;
        match self {
            Self::Arrow => photos.arrow,
            Self::Outline => photos.outline,
            Self::Note => photos.note,
            Self::Scale => photos.scale,
            Self::Length => photos.length,
        }
    }

    fn hint(self, words: &Words) -> &'static str {
        let photos = &words.photos;
        match self {
            Self::Arrow => photos.arrow_hint,
            Self::Outline => photos.outline_hint,
            Self::Note => photos.note_hint,
            Self::Scale => photos.scale_hint,
            Self::Length => photos.length_hint,
        }
    }

    fn id(self) -> &'static str {
        match self {
            Self::Arrow => "mark-arrow",
            Self::Outline => "mark-outline",
            Self::Note => "mark-note",
            Self::Scale => "mark-scale",
            Self::Length => "mark-length",
        }
    }

    /// Whether words go with it.
    fn says(self) -> bool {
        matches!(self, Self::Arrow | Self::Outline | Self::Note)
    }
}

/// A mark in the making: a `Copy` handle.
#[derive(Clone, Copy)]
pub struct Marking {
    photos: Photos,
    photo: EntryId,
    picture: Picture,
    tool: RwSignal<Option<Tool>>,
    points: RwSignal<Vec<Point>>,
    /// Whether a finger is down.
    held: RwSignal<bool>,
    said: RwSignal<String>,
    known: RwSignal<String>,
    unit: RwSignal<Unit>,
    refused: RwSignal<Option<String>>,
}

impl Marking {
    /// On a photo.
    pub fn of(photo: EntryId, picture: Picture) -> Self {
        Self {
            photos: use_photos(),
            photo,
            picture,
            tool: RwSignal::new(None),
            points: RwSignal::new(Vec::new()),
            held: RwSignal::new(false),
            said: RwSignal::new(String::new()),
            known: RwSignal::new(String::new()),
            unit: RwSignal::new(Unit::Mm),
            refused: RwSignal::new(None),
        }
    }

    /// Whether a finger on the photo draws.
    pub fn is_drawing(self) -> bool {
        self.tool.get().is_some()
    }

    /// Says why something was not kept.
    pub fn refuse(self, why: String) {
        self.refused.set(Some(why));
    }

    fn begin(self, tool: Tool) {
        let chosen = self.tool.get_untracked() != Some(tool);
        self.clear();
        self.tool.set(chosen.then_some(tool));
    }

    fn clear(self) {
        self.tool.set(None);
        self.points.set(Vec::new());
        self.held.set(false);
        self.said.set(String::new());
        self.known.set(String::new());
        self.refused.set(None);
    }

    /// A finger comes down on the photo.
    pub fn down(self, event: &PointerEvent) {
        let (Some(tool), Some(at)) = (self.tool.get_untracked(), place(event, &self.picture))
        else {
            return;
        };
        hold(event);
        self.refused.set(None);
        match tool {
            Tool::Note => self.points.set(vec![at]),
            Tool::Outline => self.corner(at),
            Tool::Arrow | Tool::Scale | Tool::Length => {
                self.held.set(true);
                self.points.set(vec![at, at]);
            }
        }
    }

    fn corner(self, at: Point) {
        self.points.update(|points| {
            if !closes(points, at, &self.picture) && points.len() < MOST_CORNERS {
                points.push(at);
            }
        });
    }

    /// A finger moves over the photo.
    pub fn moved(self, event: &PointerEvent) {
        if !self.held.get_untracked() {
            return;
        }
        if let Some(at) = place(event, &self.picture) {
            self.points.update(|points| {
                if let Some(end) = points.get_mut(1) {
                    *end = at;
                }
            });
        }
    }

    /// A finger leaves the photo.
    pub fn up(self, event: &PointerEvent) {
        self.moved(event);
        self.held.set(false);
        // A tap where a line was wanted draws none.
        if self
            .points
            .with_untracked(|points| matches!(points[..], [from, to] if from == to))
        {
            self.points.set(Vec::new());
        }
    }

    /// The mark as far as it has been drawn; none where there is nothing to see of it yet.
    pub fn draft(self) -> Option<Mark> {
        let (tool, points) = (self.tool.get()?, self.points.get());
        let text = self.said.get();
        match (tool, &points[..]) {
            (Tool::Arrow, [from, to]) => Some(Mark::Arrow {
                from: *from,
                to: *to,
                text,
            }),
            (Tool::Outline, [_, _, ..]) => Some(Mark::Outline {
                corners: points,
                text,
            }),
            // What is drawn before it says anything is only its place.
            (Tool::Outline, [at]) => Some(Mark::Note {
                at: *at,
                text: "·".to_owned(),
            }),
            (Tool::Note, [at]) => Some(Mark::Note {
                at: *at,
                text: if text.is_empty() {
                    "…".to_owned()
                } else {
                    text
                },
            }),
            (Tool::Scale, [from, to]) => Some(Mark::Scale {
                from: *from,
                to: *to,
                length: self.length().unwrap_or(zero()?),
                unit: self.unit.get(),
            }),
            (Tool::Length, [from, to]) => Some(Mark::Length {
                from: *from,
                to: *to,
            }),
            _ => None,
        }
    }

    fn length(self) -> Option<Decimal> {
        Decimal::new(&self.known.get().trim().replace(',', ".")).ok()
    }

    fn is_drawn(self) -> bool {
        let points = self.points.with(Vec::len);
        match self.tool.get() {
            Some(Tool::Outline) => points >= 3,
            Some(Tool::Note) => points == 1,
            Some(_) => points == 2,
            None => false,
        }
    }

    fn keep(self) {
        let (photos, words) = (self.photos, use_words());
        let Some(mark) = untrack(move || self.draft()) else {
            return;
        };
        if self.tool.get_untracked() == Some(Tool::Scale)
            && untrack(move || self.length()).is_none()
        {
            return self.refuse(words.photos.known_bad.to_owned());
        }
        photos.mark(self.photo, mark, move |kept| match kept {
            Ok(()) => self.clear(),
            Err(why) => self.refuse(photos.refusal(words, &why)),
        });
    }
}

fn zero() -> Option<Decimal> {
    Decimal::new("0").ok()
}

/// The tools, and what the one in hand needs.
#[component]
pub fn Tools(marking: Marking) -> impl IntoView {
    let words = use_words();
    let tools = Tool::ALL.map(|tool| {
        view! {
            <button type="button" class="button" id=tool.id() aria-pressed=move || (marking.tool.get() == Some(tool)).to_string()
                on:click=press(move || marking.begin(tool))>{tool.name(words)}</button>
        }
        .into_any()
    });
    let in_hand = Memo::new(move |_| marking.tool.get());
    view! {
        <div class="viewer__tools" role="group" aria-label=words.photos.marks>{Vec::from(tools)}</div>
        {live(move || in_hand.get().map(|tool| view! { <InHand marking tool/> }.into_any()))}
        {live(move || marking.refused.get().map(|why| view! { <p class="trouble" role="alert">{why}</p> }.into_any()))}
    }
}

#[component]
fn InHand(marking: Marking, tool: Tool) -> impl IntoView {
    let words = use_words();
    let says = tool.says().then(|| {
        view! {
            <label class="field">
                <span class="field__label">{words.photos.text}</span>
                <input class="field__input" id="mark-text" maxlength=LONGEST_LABEL.to_string() autocomplete="off"
                    prop:value=move || marking.said.get() on:input=text(move |typed| marking.said.set(typed))/>
            </label>
        }
        .into_any()
    });
    let known = (tool == Tool::Scale).then(|| view! { <Known marking/> }.into_any());
    view! {
        <form class="viewer__hand" on:submit=send(move || marking.keep())>
            <p class="fine" role="status">{tool.hint(words)}</p>
            {says}
            {known}
            <div class="viewer__acts">
                <button type="submit" class="button button--act" id="mark-done" disabled=move || !marking.is_drawn()>{words.photos.done}</button>
                <button type="button" class="button" on:click=press(move || marking.clear())>{words.photos.cancel}</button>
            </div>
        </form>
    }
}

/// The known length and its unit.
#[component]
fn Known(marking: Marking) -> impl IntoView {
    let words = use_words();
    let units = Unit::ALL
        .into_iter()
        .filter(|unit| unit.quantity() == Quantity::Length);
    let options = units.map(|unit| {
        view! { <option value=unit.as_str() selected=move || marking.unit.get() == unit>{unit.sign()}</option> }.into_any()
    });
    let choose = move |typed: String| {
        if let Some(unit) = Unit::ALL.into_iter().find(|unit| unit.as_str() == typed) {
            marking.unit.set(unit);
        }
    };
    view! {
        <div class="viewer__known">
            <label class="field">
                <span class="field__label">{words.photos.known}</span>
                <input class="field__input num" id="mark-known" inputmode="decimal" autocomplete="off"
                    prop:value=move || marking.known.get() on:input=text(move |typed| marking.known.set(typed))/>
            </label>
            <label class="field">
                <span class="field__label">{words.photos.unit}</span>
                <select class="field__input" id="mark-unit" on:change=text(choose)>{options.collect_view()}</select>
            </label>
        </div>
    }
}
