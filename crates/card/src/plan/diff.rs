//! What differs between two plans.
//!
//! Things are told apart by their ids, so that one moved or one of a different weight is still the
//! same; breakpoints and criteria, which have none, by their numbers, or where the numbers of rows
//! differ by what they stand at. Of something that only one plan has, what is below is not told again.

use super::{
    CapRule, Characteristic, Criterion, Field, Held, Part, Place, Plan, PlanItem, Section,
};
use crate::{
    grade::Grade,
    ids::ScaleId,
    scale::{Breakpoint, Scale},
};

/// One difference of a plan from another.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// What it is about. A row by number is numbered in the plan that has it.
    pub item: PlanItem,
    /// How it differs.
    pub change: Change,
}

/// How an item differs.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// The other plan does not have it.
    Added,
    /// Only the other plan has it.
    Removed,
    /// A field holds something else.
    Field {
        /// The field.
        field: Field,
        /// What it holds in the other plan.
        from: Held,
        /// What it holds in this one.
        to: Held,
    },
}

impl Plan {
    /// What differs from another plan, such as the one that this was derived from; in plan order.
    ///
    /// Nothing differs exactly where the two are equal in all that this version knows.
    pub fn differences(&self, other: &Self) -> Vec<Difference> {
        let mut found = Differences::default();
        found.head(other, self);
        found.sections(other, self);
        found.scales(other, self);
        found.caps(other, self);
        found.location_factors(other, self);
        found.criteria(other, self);
        found.0
    }
}

/// Two lists of things with ids laid beside each other, by number.
struct Paired {
    removed: Vec<usize>,
    added: Vec<usize>,
    both: Vec<(usize, usize)>,
    reordered: bool,
}

/// An id that stands twice pairs with its like in order.
fn pair(from: &[&str], to: &[&str]) -> Paired {
    let mut open: Vec<Option<&str>> = to.iter().copied().map(Some).collect();
    let (mut removed, mut both) = (Vec::new(), Vec::new());
    for (n, id) in from.iter().enumerate() {
        // Lists that agree up to here, as most do, are found at once.
        let guess = both
            .last()
            .map_or(0, |(_, place): &(usize, usize)| place + 1);
        let same = |place: usize| open.get(place).copied().flatten() == Some(*id);
        let found = if same(guess) {
            Some(guess)
        } else {
            (0..open.len()).find(|place| same(*place))
        };
        match found {
            Some(place) => {
                open[place] = None;
                both.push((n, place));
            }
            None => removed.push(n),
        }
    }
    Paired {
        removed,
        added: (0..to.len())
            .filter(|place| open[*place].is_some())
            .collect(),
        reordered: !both.is_sorted_by_key(|(_, place)| *place),
        both,
    }
}

/// The name that its author gave a row of a table, and its figure, by number.
type Row<'r> = &'r dyn Fn(usize) -> (Option<&'r String>, f64);

#[derive(Default)]
struct Differences(Vec<Difference>);

impl Differences {
    fn tell(&mut self, item: PlanItem, change: Change) {
        self.0.push(Difference { item, change });
    }

    fn held(&mut self, item: &PlanItem, field: Field, from: Held, to: Held) {
        if from != to {
            self.tell(item.clone(), Change::Field { field, from, to });
        }
    }

    fn figure(&mut self, item: &PlanItem, field: Field, from: f64, to: f64) {
        self.held(item, field, Held::Figure(from), Held::Figure(to));
    }

    fn text(&mut self, item: &PlanItem, field: Field, from: &str, to: &str) {
        self.held(
            item,
            field,
            Held::Text(from.to_owned()),
            Held::Text(to.to_owned()),
        );
    }

    fn label(&mut self, item: &PlanItem, from: Option<&String>, to: Option<&String>) {
        let held = |label: Option<&String>| label.cloned().map_or(Held::Nothing, Held::Text);
        self.held(item, Field::Label, held(from), held(to));
    }

    /// Tells of what only one list of an owner has and of an order that changed, and gives what both
    /// have.
    fn listed(
        &mut self,
        owner: &PlanItem,
        from: &[&str],
        to: &[&str],
        of_from: &dyn Fn(usize) -> PlanItem,
        of_to: &dyn Fn(usize) -> PlanItem,
    ) -> Vec<(usize, usize)> {
        let paired = pair(from, to);
        if paired.reordered {
            let order = |ids: &[&str]| Held::Order(ids.iter().map(|id| (*id).to_owned()).collect());
            self.held(owner, Field::Order, order(from), order(to));
        }
        for n in paired.removed {
            self.tell(of_from(n), Change::Removed);
        }
        for n in paired.added {
            self.tell(of_to(n), Change::Added);
        }
        paired.both
    }

    fn head(&mut self, from: &Plan, to: &Plan) {
        let item = PlanItem::Plan;
        self.text(&item, Field::Name, &from.name, &to.name);
        self.text(&item, Field::Version, &from.version, &to.version);
        let (depth, other) = (Held::Depth(from.depth), Held::Depth(to.depth));
        self.held(&item, Field::Depth, depth, other);
        let layout = |plan: &Plan| Held::Layout(Box::new(plan.layout.clone()));
        self.held(&item, Field::Layout, layout(from), layout(to));
        self.figure(&item, Field::UBias, from.u_bias, to.u_bias);
    }

    fn sections(&mut self, from: &Plan, to: &Plan) {
        let both = self.listed(
            &PlanItem::Plan,
            &ids(&from.sections, |section| section.id.as_str()),
            &ids(&to.sections, |section| section.id.as_str()),
            &|n| from.sections[n].item(),
            &|n| to.sections[n].item(),
        );
        for (a, b) in both {
            self.section(&from.sections[a], &to.sections[b]);
        }
    }

    fn section(&mut self, from: &Section, to: &Section) {
        let item = to.item();
        self.label(&item, from.label.as_ref(), to.label.as_ref());
        self.figure(&item, Field::Weight, from.weight, to.weight);
        let both = self.listed(
            &item,
            &ids(&from.parts, |part| part.id.as_str()),
            &ids(&to.parts, |part| part.id.as_str()),
            &|n| from.parts[n].item(from),
            &|n| to.parts[n].item(to),
        );
        for (a, b) in both {
            self.part((from, &from.parts[a]), (to, &to.parts[b]));
        }
    }

    fn part(&mut self, from: (&Section, &Part), to: (&Section, &Part)) {
        let item = to.1.item(to.0);
        self.label(&item, from.1.label.as_ref(), to.1.label.as_ref());
        self.figure(&item, Field::Weight, from.1.weight, to.1.weight);
        let both = self.listed(
            &item,
            &ids(&from.1.places, |place| place.id.as_str()),
            &ids(&to.1.places, |place| place.id.as_str()),
            &|n| from.1.places[n].item(from.0, from.1),
            &|n| to.1.places[n].item(to.0, to.1),
        );
        for (a, b) in both {
            self.place(
                &to.1.places[b].item(to.0, to.1),
                &from.1.places[a],
                &to.1.places[b],
            );
        }
    }

    fn place(&mut self, item: &PlanItem, from: &Place, to: &Place) {
        self.label(item, from.label.as_ref(), to.label.as_ref());
        self.figure(item, Field::Weight, from.weight, to.weight);
        let (axis, other) = (Held::Axis(from.axis), Held::Axis(to.axis));
        self.held(item, Field::Axis, axis, other);
        let position = |place: &Place, n: usize| item.position(&place.positions[n].id);
        let both = self.listed(
            item,
            &ids(&from.positions, |position| position.id.as_str()),
            &ids(&to.positions, |position| position.id.as_str()),
            &|n| position(from, n),
            &|n| position(to, n),
        );
        for (a, b) in both {
            let (a, b) = (&from.positions[a], &to.positions[b]);
            self.text(&item.position(&b.id), Field::Column, &a.column, &b.column);
        }
        let look = |place: &Place, n: usize| item.look(&place.looks[n].id);
        let both = self.listed(
            item,
            &ids(&from.looks, |look| look.id.as_str()),
            &ids(&to.looks, |look| look.id.as_str()),
            &|n| look(from, n),
            &|n| look(to, n),
        );
        for (a, b) in both {
            self.look(&look(to, b), &from.looks[a], &to.looks[b]);
        }
    }

    fn look(&mut self, item: &PlanItem, from: &Characteristic, to: &Characteristic) {
        self.label(item, from.label.as_ref(), to.label.as_ref());
        let scale = |look: &Characteristic| Held::Scale(look.scale.clone());
        self.held(item, Field::Scale, scale(from), scale(to));
        self.figure(item, Field::Weight, from.weight, to.weight);
        let (regime, other) = (Held::Regime(from.regime), Held::Regime(to.regime));
        self.held(item, Field::Regime, regime, other);
        let u_rep = |look: &Characteristic| Held::Repeatability(look.u_rep);
        self.held(item, Field::URep, u_rep(from), u_rep(to));
    }

    fn scales(&mut self, from: &Plan, to: &Plan) {
        for id in from.scales.keys().filter(|id| !to.scales.contains_key(*id)) {
            self.tell(PlanItem::Scale(id.clone()), Change::Removed);
        }
        for (id, scale) in &to.scales {
            match from.scales.get(id) {
                Some(old) => self.scale(id, old, scale),
                None => self.tell(PlanItem::Scale(id.clone()), Change::Added),
            }
        }
    }

    fn scale(&mut self, id: &ScaleId, from: &Scale, to: &Scale) {
        let item = PlanItem::Scale(id.clone());
        match (from, to) {
            (Scale::Grade { scores: a }, Scale::Grade { scores: b }) => {
                for (n, grade) in Grade::WHOLE.into_iter().enumerate() {
                    self.figure(
                        &PlanItem::Grade(id.clone(), grade),
                        Field::Score,
                        a[n],
                        b[n],
                    );
                }
            }
            (Scale::Area { levels: a }, Scale::Area { levels: b }) => self.rows(
                &item,
                Field::Factor,
                (&ids(a, |row| row.id.as_str()), &|n| {
                    (a[n].label.as_ref(), a[n].factor)
                }),
                (&ids(b, |row| row.id.as_str()), &|n| {
                    (b[n].label.as_ref(), b[n].factor)
                }),
                &|of_to, n| {
                    PlanItem::Level(id.clone(), if of_to { &b[n] } else { &a[n] }.id.clone())
                },
            ),
            (Scale::MeritArea { levels: a }, Scale::MeritArea { levels: b }) => self.rows(
                &item,
                Field::Merit,
                (&ids(a, |row| row.id.as_str()), &|n| {
                    (a[n].label.as_ref(), a[n].merit)
                }),
                (&ids(b, |row| row.id.as_str()), &|n| {
                    (b[n].label.as_ref(), b[n].merit)
                }),
                &|of_to, n| {
                    PlanItem::Level(id.clone(), if of_to { &b[n] } else { &a[n] }.id.clone())
                },
            ),
            (Scale::State { states: a }, Scale::State { states: b }) => self.rows(
                &item,
                Field::Score,
                (&ids(a, |row| row.id.as_str()), &|n| {
                    (a[n].label.as_ref(), a[n].score)
                }),
                (&ids(b, |row| row.id.as_str()), &|n| {
                    (b[n].label.as_ref(), b[n].score)
                }),
                &|of_to, n| {
                    PlanItem::State(id.clone(), if of_to { &b[n] } else { &a[n] }.id.clone())
                },
            ),
            (Scale::Extent { points: a }, Scale::Extent { points: b })
            | (Scale::Count { points: a }, Scale::Count { points: b }) => self.points(id, a, b),
            (
                Scale::Measured { as_new, limit },
                Scale::Measured {
                    as_new: new_as_new,
                    limit: new_limit,
                },
            ) => {
                self.figure(&item, Field::AsNew, *as_new, *new_as_new);
                self.figure(&item, Field::Limit, *limit, *new_limit);
            }
            _ => {
                let (a, b) = (Held::Method(from.method()), Held::Method(to.method()));
                self.held(&item, Field::Method, a, b);
            }
        }
    }

    /// Rows of a table that have ids, and a name and a figure each.
    fn rows(
        &mut self,
        owner: &PlanItem,
        field: Field,
        (from, old): (&[&str], Row<'_>),
        (to, new): (&[&str], Row<'_>),
        item: &dyn Fn(bool, usize) -> PlanItem,
    ) {
        let both = self.listed(owner, from, to, &|n| item(false, n), &|n| item(true, n));
        for (a, b) in both {
            let (label, figure) = old(a);
            let (new_label, new_figure) = new(b);
            self.label(&item(true, b), label, new_label);
            self.figure(&item(true, b), field, figure, new_figure);
        }
    }

    fn points(&mut self, id: &ScaleId, from: &[Breakpoint], to: &[Breakpoint]) {
        let point = |n: usize| PlanItem::Point(id.clone(), n);
        let by_x = |points: &[Breakpoint]| texts(points, |point| point.x.to_string());
        for (a, b) in self.numbered(&by_x(from), &by_x(to), &point) {
            let (item, a, b) = (point(b), from[a], to[b]);
            self.figure(&item, Field::X, a.x, b.x);
            self.figure(&item, Field::Score, a.score, b.score);
        }
    }

    fn caps(&mut self, from: &Plan, to: &Plan) {
        let both = self.listed(
            &PlanItem::Plan,
            &ids(&from.caps, |rule| rule.id.as_str()),
            &ids(&to.caps, |rule| rule.id.as_str()),
            &|n| PlanItem::Cap(from.caps[n].id.clone()),
            &|n| PlanItem::Cap(to.caps[n].id.clone()),
        );
        for (a, b) in both {
            self.cap(&from.caps[a], &to.caps[b]);
        }
    }

    fn cap(&mut self, from: &CapRule, to: &CapRule) {
        let item = PlanItem::Cap(to.id.clone());
        let node = |node: &str| Held::Node(node.to_owned());
        let look = |rule: &CapRule| Held::Characteristic(rule.characteristic.clone());
        let when = |rule: &CapRule| Held::Trigger(rule.when.clone());
        self.label(&item, from.label.as_ref(), to.label.as_ref());
        self.held(&item, Field::Node, node(&from.node), node(&to.node));
        self.figure(&item, Field::Cap, from.cap, to.cap);
        self.held(&item, Field::Within, node(&from.within), node(&to.within));
        self.held(&item, Field::Characteristic, look(from), look(to));
        self.held(&item, Field::When, when(from), when(to));
    }

    fn location_factors(&mut self, from: &Plan, to: &Plan) {
        let held = |factor: Option<&f64>| factor.map_or(Held::Nothing, |held| Held::Figure(*held));
        let gone = from.location_factors.keys();
        let gone = gone.filter(|look| !to.location_factors.contains_key(*look));
        for look in gone.chain(to.location_factors.keys()) {
            self.held(
                &PlanItem::LocationFactor(look.clone()),
                Field::Factor,
                held(from.location_factors.get(look)),
                held(to.location_factors.get(look)),
            );
        }
    }

    fn criteria(&mut self, from: &Plan, to: &Plan) {
        let by_figure = |plan: &Plan| {
            texts(&plan.criteria, |criterion| {
                format!("{:?}", criterion.figure)
            })
        };
        let both = self.numbered(&by_figure(from), &by_figure(to), &PlanItem::Criterion);
        for (a, b) in both {
            self.criterion(b, &from.criteria[a], &to.criteria[b]);
        }
    }

    fn criterion(&mut self, number: usize, from: &Criterion, to: &Criterion) {
        let item = PlanItem::Criterion(number);
        let figure = |criterion: &Criterion| Held::TradeFigure(criterion.figure);
        self.held(&item, Field::Figure, figure(from), figure(to));
        self.figure(&item, Field::Weight, from.weight, to.weight);
        self.figure(&item, Field::Anchor, from.anchor, to.anchor);
        self.figure(&item, Field::Limit, from.limit, to.limit);
        self.figure(&item, Field::Best, from.best, to.best);
    }

    /// Rows without ids: by number where there are as many, else by what they stand at.
    fn numbered(
        &mut self,
        from: &[String],
        to: &[String],
        item: &dyn Fn(usize) -> PlanItem,
    ) -> Vec<(usize, usize)> {
        if from.len() == to.len() {
            return (0..from.len()).map(|n| (n, n)).collect();
        }
        let paired = pair(&ids(from, String::as_str), &ids(to, String::as_str));
        for n in paired.removed {
            self.tell(item(n), Change::Removed);
        }
        for n in paired.added {
            self.tell(item(n), Change::Added);
        }
        paired.both
    }
}

fn ids<T>(items: &[T], id: impl Fn(&T) -> &str) -> Vec<&str> {
    items.iter().map(id).collect()
}

fn texts<T>(items: &[T], text: impl Fn(&T) -> String) -> Vec<String> {
    items.iter().map(text).collect()
}
