//! Areas being read off a photo: what the hand has marked, what the worker has counted, and how the shades are parted.

use js_sys::{Array, Float64Array, Uint8Array, Uint8ClampedArray};
use leptos::{html, prelude::*, task::spawn_local};
use ringland_assess::photo::{
    areas::{classes, cuts, first_levels, levels, part},
    count::ShadeCount,
};
use ringland_card::{
    Areas, EntryId, LevelId,
    photo::{LeftOut, MOST_CORNERS, MOST_LEFT_OUT, PhotoAreas, Picture, Point, Region, Shade},
    plan::LeafId,
};
use ringland_report::photo::CLASS_COLOURS;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, ImageData, PointerEvent};

use crate::{
    beside::{Asked, Beside},
    components::choice,
    pages::photos::pointing::{closes, hold, place},
    persist::camera::Plane,
    store::{CardStore, use_card},
};

/// How wide the brush is, as a share of the photo's longer side.
const BRUSH: f64 = 0.04;
/// The longer side of the picture of the classes, in pixels.
const PAINTED_SIDE: u32 = 1_024;
/// How much of the surface the colour of a class covers, of 255.
const COVERS: u8 = 120;

/// What the hand marks on the photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tool {
    /// The corners of the surface.
    Surface,
    /// Corners of glare or shadow.
    Outline,
    /// Glare or shadow, by going over it.
    Brush,
    /// The corners of a rectangle.
    Straighten,
}

impl Tool {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Surface, Self::Outline, Self::Brush, Self::Straighten];
}

/// How far the reading is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum State {
    /// There is no surface yet.
    NoSurface,
    /// The worker counts.
    Counting,
    /// It has counted.
    Counted,
    /// It cannot: why, as the worker calls it; nothing where there is no worker.
    Refused(String),
}

/// A reading in the making: a `Copy` handle.
#[derive(Clone, Copy)]
pub struct Reading {
    store: CardStore,
    photo: EntryId,
    /// The photo's kind and size.
    pub picture: Picture,
    /// What the hand is at.
    pub tool: RwSignal<Tool>,
    corners: RwSignal<Vec<Point>>,
    left_out: RwSignal<Vec<LeftOut>>,
    rectangle: RwSignal<Vec<Point>>,
    /// An outline or a brush's way in the making.
    at_hand: RwSignal<Vec<Point>>,
    held: StoredValue<bool>,
    /// The leaf that is rated.
    pub leaf: RwSignal<Option<LeafId>>,
    /// What tells the pixels apart.
    pub shade: RwSignal<Shade>,
    /// How many classes there are.
    pub classes: RwSignal<usize>,
    /// Where they part.
    pub cuts: RwSignal<Vec<u8>>,
    /// The level of each.
    pub levels: RwSignal<Vec<LevelId>>,
    /// Whether the classes are coloured on the photo.
    pub coloured: RwSignal<bool>,
    /// Whether the rater has moved a cut: another surface does not part them anew then.
    by_hand: StoredValue<bool>,
    count: RwSignal<Option<ShadeCount>>,
    /// How far it is.
    pub state: RwSignal<State>,
    /// Where the classes are coloured.
    pub canvas: NodeRef<html::Canvas>,
    beside: StoredValue<Option<Beside>, LocalStorage>,
    /// Pixels of the worker to a pixel of the photo.
    scale: StoredValue<f64>,
    to_count: StoredValue<bool>,
    to_paint: StoredValue<bool>,
    running: StoredValue<bool>,
    /// Whether the worker has the photo.
    given: StoredValue<bool>,
    /// Whether it can be read at all.
    can_read: RwSignal<bool>,
}

impl Reading {
    /// Of a photo; the page that begins it ends it.
    pub fn of(photo: EntryId, picture: Picture) -> Self {
        let reading = Self {
            store: use_card(),
            photo,
            picture,
            tool: RwSignal::new(Tool::Surface),
            corners: RwSignal::new(Vec::new()),
            left_out: RwSignal::new(Vec::new()),
            rectangle: RwSignal::new(Vec::new()),
            at_hand: RwSignal::new(Vec::new()),
            held: StoredValue::new(false),
            leaf: RwSignal::new(None),
            shade: RwSignal::new(Shade::default()),
            classes: RwSignal::new(2),
            cuts: RwSignal::new(Vec::new()),
            levels: RwSignal::new(Vec::new()),
            coloured: RwSignal::new(true),
            by_hand: StoredValue::new(false),
            count: RwSignal::new(None),
            state: RwSignal::new(State::NoSurface),
            canvas: NodeRef::new(),
            beside: StoredValue::new_local(Beside::start()),
            scale: StoredValue::new(1.0),
            to_count: StoredValue::new(false),
            to_paint: StoredValue::new(false),
            running: StoredValue::new(false),
            given: StoredValue::new(false),
            can_read: RwSignal::new(true),
        };
        if reading.beside.with_value(Option::is_none) {
            reading.refuse_all("");
        }
        Effect::new(move || reading.follow_the_hand());
        Effect::new(move || reading.follow_the_scale());
        Effect::new(move || reading.follow_the_cuts());
        reading
    }

    /// Gives the worker the photo's pixels.
    pub fn give(self, plane: Plane) {
        self.scale.set_value(plane.scale);
        spawn_local(async move {
            let gives = Array::of1(&plane.rgba.buffer());
            let asked = Asked::to("picture")
                .with("width", &plane.width.into())
                .with("rgba", &plane.rgba);
            match self.ask(asked, &gives).await {
                // Whatever was asked meanwhile has waited for it.
                Ok(_) if self.given.try_set_value(true).is_none() => self.run(),
                Ok(_) => {}
                Err(_why) => self.refuse_all(""),
            }
        });
    }

    /// The leaf's scale, read.
    fn scale_levels(self) -> Vec<LevelId> {
        let Some(leaf) = self.leaf.get() else {
            return Vec::new();
        };
        let found = self.store.peek(|open| {
            let plan = open.card.plan();
            let look = open.card.index().leaf(leaf)?.characteristic(plan);
            plan.scale(&look.scale).map(levels)
        });
        found.flatten().unwrap_or_default()
    }

    /// Another scale, another shade or another number of classes begins with levels of its own.
    fn follow_the_scale(self) {
        let first = first_levels(self.shade.get(), &self.scale_levels(), self.classes.get());
        self.levels.set(first);
        self.by_hand.set_value(false);
        untrack(move || self.part_anew());
    }

    fn follow_the_hand(self) {
        self.shade.track();
        self.left_out.track();
        // Fewer than four corners straighten nothing, and go nowhere.
        self.rectangle.track();
        if self.corners.with(Vec::len) >= 3 {
            // What is marked has not been counted yet, and nothing goes to the pad until it is.
            if self.can_read.get_untracked() {
                self.state.set(State::Counting);
            }
            self.to_count.set_value(true);
            self.run();
        } else {
            self.forget_count();
            if self.can_read.get_untracked() {
                self.state.set(State::NoSurface);
            }
        }
    }

    fn follow_the_cuts(self) {
        self.cuts.track();
        self.coloured.track();
        self.count.track();
        self.to_paint.set_value(true);
        self.run();
    }

    /// Does what is asked for, the last of each kind, one thing after the other.
    fn run(self) {
        if self.running.get_value() || !self.given.get_value() {
            return;
        }
        self.running.set_value(true);
        spawn_local(async move {
            loop {
                let next = |wanted: StoredValue<bool>| {
                    wanted.try_update_value(std::mem::take) == Some(true)
                };
                if next(self.to_count) {
                    self.count_now().await;
                } else if next(self.to_paint) {
                    self.paint_now().await;
                } else {
                    break;
                }
            }
            let _left = self.running.try_set_value(false);
        });
    }

    async fn ask(self, asked: Asked, gives: &Array) -> Result<JsValue, String> {
        // Taken out while it works: a page that is left lets it go with the answer.
        let beside = self.beside.try_update_value(Option::take).flatten();
        let Some(beside) = beside else {
            return Err(String::new());
        };
        let answer = beside.ask(asked, gives).await;
        let _left = self.beside.try_set_value(Some(beside));
        answer
    }

    async fn count_now(self) {
        let Some(asked) = untrack(move || self.count_asked()) else {
            return;
        };
        let _left = self.state.try_set(State::Counting);
        match self.ask(asked, &Array::new()).await {
            Ok(answer) => {
                let figures = Float64Array::unchecked_from_js(answer).to_vec();
                if self
                    .count
                    .try_set(ShadeCount::of_figures(&figures))
                    .is_none()
                {
                    untrack(move || self.part_anew());
                    let _left = self.state.try_set(State::Counted);
                }
            }
            Err(why) => self.refuse(why),
        }
    }

    fn count_asked(self) -> Option<Asked> {
        let shade = choice::place(&Shade::ALL, &self.shade.try_get()?);
        let (corners, rectangle) = (self.corners.try_get()?, self.rectangle.try_get()?);
        let scale = self.scale.try_get_value()?;
        let left_out = Array::new();
        for part in self.left_out.try_get()? {
            let one = Asked::to("").with("way", &numbers(part.points(), scale));
            left_out.push(&match part {
                LeftOut::Brush { width, .. } => one.with("width", &(width * scale).into()).into(),
                LeftOut::Outline { .. } => one.into(),
            });
        }
        let asked = Asked::to("count")
            .with("corners", &numbers(&corners, scale))
            .with("rectangle", &numbers(&rectangle, scale))
            .with("leftOut", &left_out);
        Some(asked.with("shade", &u32::try_from(shade).unwrap_or_default().into()))
    }

    async fn paint_now(self) {
        let cuts = self.cuts.try_get_untracked().unwrap_or_default();
        let shown = self.coloured.try_get_untracked() == Some(true)
            && self.count.try_with_untracked(Option::is_some) == Some(true);
        let Some(canvas) = self.canvas.try_get_untracked().flatten() else {
            return;
        };
        if !shown {
            canvas.set_width(0);
            return;
        }
        let colours: Vec<u8> = CLASS_COLOURS
            .iter()
            .flat_map(|[red, green, blue]| [*red, *green, *blue, COVERS])
            .collect();
        let Some(scale) = self.scale.try_get_value() else {
            return;
        };
        let [width, height] = [self.picture.width, self.picture.height].map(f64::from);
        let every = (width.max(height) * scale / f64::from(PAINTED_SIDE))
            .ceil()
            .max(1.0);
        let asked = Asked::to("paint")
            .with("cuts", &Uint8Array::from(cuts.as_slice()))
            .with("colours", &Uint8Array::from(colours.as_slice()))
            .with("every", &every.into());
        if let Ok(answer) = self.ask(asked, &Array::new()).await {
            let pixels = Uint8ClampedArray::new(&Uint8Array::unchecked_from_js(answer).buffer());
            let across = (width * scale).round() / every;
            // What cannot be drawn leaves the photo as it is.
            let _drawn = draw(&canvas, &pixels, across.ceil());
        }
    }

    /// Parts the shades anew, unless the rater has moved where they part.
    fn part_anew(self) {
        if self.by_hand.get_value() {
            return;
        }
        let parted = self.count.with(|count| {
            let count = count.as_ref()?;
            Some(part(count, self.classes.get()))
        });
        match parted {
            Some(Ok(cuts)) => self.cuts.set(cuts),
            Some(Err(_)) => {
                self.cuts.set(Vec::new());
            }
            None => {}
        }
    }

    /// Parts them anew whatever was moved.
    pub fn start_over(self) {
        self.by_hand.set_value(false);
        untrack(move || self.part_anew());
    }

    /// Moves where two classes part, up to its neighbours.
    pub fn move_cut(self, number: usize, to: u8) {
        self.by_hand.set_value(true);
        self.cuts.update(|cuts| {
            let low = number
                .checked_sub(1)
                .and_then(|before| cuts.get(before))
                .map_or(0, |before| before.saturating_add(1));
            let high = cuts
                .get(number + 1)
                .map_or(u8::MAX - 1, |after| after.saturating_sub(1));
            if let Some(cut) = cuts.get_mut(number) {
                *cut = to.clamp(low, high.max(low));
            }
        });
    }

    /// Says why it cannot be read as it is marked, as the worker calls it.
    fn refuse(self, why: String) {
        self.forget_count();
        let _left = self.state.try_set(State::Refused(why));
    }

    /// Says why it cannot be read at all: `pixels` or `gone`, or nothing where there is no worker.
    pub fn refuse_all(self, why: &str) {
        let _left = self.can_read.try_set(false);
        self.refuse(why.to_owned());
    }

    /// What was counted before is not what is marked now.
    fn forget_count(self) {
        let _left = self.count.try_set(None);
        let _left = self.cuts.try_set(Vec::new());
        let _left = self.by_hand.try_set_value(false);
    }

    /// What was counted, once it was.
    pub fn counted<T>(self, read: impl FnOnce(&ShadeCount) -> T) -> Option<T> {
        self.count.with(|count| count.as_ref().map(read))
    }

    /// The surface and what is left out of it, as far as they are marked.
    pub fn region(self) -> Region {
        Region {
            corners: self.corners.get(),
            left_out: self.left_out.get(),
            rectangle: self.rectangle.get().try_into().ok(),
        }
    }

    /// What the hand is at, and has not ended.
    pub fn at_hand(self) -> Vec<Point> {
        let rectangle = self.rectangle.get();
        if self.tool.get() == Tool::Straighten && rectangle.len() < 4 {
            return rectangle;
        }
        self.at_hand.get()
    }

    /// How it would be kept; nothing before there are classes.
    pub fn read(self) -> Option<PhotoAreas> {
        let (parted, levels) = (self.cuts.get(), self.levels.get());
        if parted.is_empty() || levels.len() != parted.len() + 1 {
            return None;
        }
        self.counted(|count| PhotoAreas {
            photo: self.photo,
            region: self.region(),
            shade: self.shade.get(),
            cuts: cuts(count, &parted),
            classes: classes(count, &parted, &levels),
        })
    }

    /// Hands what was read to the pad of its leaf, for the rater to keep, to change or to leave.
    pub fn propose(self) -> Option<LeafId> {
        let leaf = self.leaf.get_untracked()?;
        (self.state.get_untracked() == State::Counted).then_some(())?;
        let read = untrack(move || self.read())?;
        let areas = Areas {
            shares: read.shares(),
            painted: Vec::new(),
            read_off: Some(Box::new(read)),
        };
        self.store.propose(leaf, areas);
        Some(leaf)
    }

    /// Takes another tool in hand; an outline in the making is ended.
    pub fn take(self, tool: Tool) {
        self.end_outline();
        self.tool.set(tool);
    }

    /// The whole photo is the surface.
    pub fn whole_photo(self) {
        let (right, low) = (
            f64::from(self.picture.width),
            f64::from(self.picture.height),
        );
        let corners = [(0.0, 0.0), (right, 0.0), (right, low), (0.0, low)];
        self.corners.set(corners.map(Point::from).to_vec());
    }

    /// Takes back what was marked last with the tool in hand.
    pub fn back_one(self) {
        let pop = |points: RwSignal<Vec<Point>>| {
            points.try_update(|points| points.pop().is_some()) == Some(true)
        };
        match self.tool.get_untracked() {
            Tool::Surface => {
                pop(self.corners);
            }
            Tool::Straighten => {
                pop(self.rectangle);
            }
            Tool::Outline | Tool::Brush => {
                if !pop(self.at_hand) {
                    self.left_out.update(|parts| {
                        parts.pop();
                    });
                }
            }
        }
    }

    fn end_outline(self) {
        let corners = self.at_hand.try_update(std::mem::take).unwrap_or_default();
        if corners.len() >= 3 {
            self.leave_out(LeftOut::Outline { corners });
        }
    }

    fn leave_out(self, part: LeftOut) {
        self.left_out.update(|parts| {
            if parts.len() < MOST_LEFT_OUT {
                parts.push(part);
            }
        });
    }

    /// A finger comes down on the photo.
    pub fn down(self, event: &PointerEvent) {
        let Some(at) = place(event, &self.picture) else {
            return;
        };
        hold(event);
        match self.tool.get_untracked() {
            Tool::Surface => self.corners.update(|corners| self.add(corners, at)),
            Tool::Outline => {
                if self
                    .at_hand
                    .with_untracked(|corners| closes(corners, at, &self.picture))
                {
                    self.end_outline();
                } else {
                    self.at_hand.update(|corners| self.add(corners, at));
                }
            }
            Tool::Brush => {
                self.held.set_value(true);
                self.at_hand.set(vec![at]);
            }
            Tool::Straighten => self.rectangle.update(|corners| {
                if corners.len() == 4 {
                    corners.clear();
                }
                corners.push(at);
            }),
        }
    }

    fn add(self, corners: &mut Vec<Point>, at: Point) {
        if !closes(corners, at, &self.picture) && corners.len() < MOST_CORNERS {
            corners.push(at);
        }
    }

    /// A finger moves over the photo.
    pub fn moved(self, event: &PointerEvent) {
        if !self.held.get_value() {
            return;
        }
        let Some(at) = place(event, &self.picture) else {
            return;
        };
        let step = self.brush() / 4.0;
        self.at_hand.update(|way| {
            let far = way.last().is_none_or(|last| last.distance(at) >= step);
            if far && way.len() < MOST_CORNERS {
                way.push(at);
            }
        });
    }

    /// A finger leaves the photo.
    pub fn up(self, event: &PointerEvent) {
        if !self.held.get_value() {
            return;
        }
        self.moved(event);
        self.held.set_value(false);
        let way = self.at_hand.try_update(std::mem::take).unwrap_or_default();
        if !way.is_empty() {
            let width = self.brush();
            self.leave_out(LeftOut::Brush { way, width });
        }
    }

    fn brush(self) -> f64 {
        let longer = self.picture.width.max(self.picture.height);
        (BRUSH * f64::from(longer)).max(1.0)
    }
}

/// Points as the worker takes them: x and y in turn, in its pixels.
fn numbers(points: &[Point], scale: f64) -> Float64Array {
    let numbers: Vec<f64> = points
        .iter()
        .flat_map(|point| [point.x * scale, point.y * scale])
        .collect();
    Float64Array::from(numbers.as_slice())
}

fn draw(
    canvas: &HtmlCanvasElement,
    pixels: &Uint8ClampedArray,
    across: f64,
) -> Result<(), JsValue> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a width of a picture in whole pixels"
    )]
    let across = across as u32;
    let image = ImageData::new_with_js_u8_clamped_array(pixels, across)?;
    canvas.set_width(image.width());
    canvas.set_height(image.height());
    let context = canvas.get_context("2d")?.ok_or(JsValue::NULL)?;
    let context: CanvasRenderingContext2d = context.unchecked_into();
    context.put_image_data(&image, 0.0, 0.0)
}
