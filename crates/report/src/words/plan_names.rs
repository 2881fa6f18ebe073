//! What items and fields of a plan are called, what differs between two plans, and what is wrong in
//! one, each as a line.

use ringland_card::{
    Depth, PartId, PlaceId, Plan, SectionId, StateId,
    file::PlanFileError,
    plan::{
        Axis, Change, Difference, EditError, Field, Held, LONGEST_LABEL, MOST_EACH, Part, Place,
        PlanError, PlanItem, Problem, Repeatability, Section, Trigger,
    },
};

use super::{Words, capitalised, lowered};

/// Between a place and what is looked at there, in one name.
const DOT: &str = " · ";

impl Words {
    /// What an item of a plan is called; an item that the plan lacks by its name in the other.
    pub fn plan_item(&self, plan: &Plan, other: &Plan, item: &PlanItem) -> String {
        let fields = &self.plan_fields;
        let rows = self.row_in(plan, item).or_else(|| self.row_in(other, item));
        if let Some(name) = rows {
            return name;
        }
        match item {
            PlanItem::Scale(id) => {
                let found = [plan, other].into_iter().find_map(|plan| plan.scale(id));
                self.scale_name(id, found).to_owned()
            }
            PlanItem::Grade(scale, grade) => {
                [self.scale(scale.as_str()), &self.grade(*grade)].join(DOT)
            }
            PlanItem::Level(id, level) => {
                let found = [plan, other].into_iter().find(|plan| plan.has(item));
                let scale = found.and_then(|plan| plan.scale(id));
                let level = scale.map_or(level.as_str(), |scale| self.level(scale, level));
                [self.scale(id.as_str()), level].join(DOT)
            }
            PlanItem::State(id, state) => {
                let found = [plan, other].into_iter().find(|plan| plan.has(item));
                let scale = found.and_then(|plan| plan.scale(id));
                let state = scale.map_or(state.as_str(), |scale| self.state(scale, state));
                [self.scale(id.as_str()), state].join(DOT)
            }
            PlanItem::Point(scale, number) => fields.row(self.scale(scale.as_str()), number + 1),
            PlanItem::Cap(id) => {
                let mut rules = plan.caps.iter().chain(&other.caps);
                let rule = rules.find(|rule| rule.id == *id);
                rule.map_or(id.as_str(), |rule| self.cap_name(rule))
                    .to_owned()
            }
            PlanItem::LocationFactor(look) => {
                fields.location_factor(&self.look_name(plan, look.as_str()))
            }
            PlanItem::Criterion(number) => {
                let criterion = plan.criteria.get(*number);
                let figure = criterion.map(|criterion| self.trade_figure(criterion.figure));
                [
                    fields.criterion(number + 1).as_str(),
                    figure.unwrap_or_default(),
                ]
                .join(", ")
            }
            _ => fields.the_plan.to_owned(),
        }
    }

    /// The name of a section, a part, a place, a position or a characteristic that the plan has.
    fn row_in(&self, plan: &Plan, item: &PlanItem) -> Option<String> {
        match item {
            PlanItem::Section(section) => {
                Some(self.section_name(find_section(plan, section)?).to_owned())
            }
            PlanItem::Part(section, part) => {
                let (section, part) = find_part(plan, section, part)?;
                Some(self.way_to(section, part, None))
            }
            PlanItem::Place(section, part, place) => {
                let (section, part) = find_part(plan, section, part)?;
                let place = part.places.iter().find(|known| known.id == *place);
                Some(self.way_to(section, part, Some(place?)))
            }
            PlanItem::Position(section, part, place, id) => {
                let place = find_place(plan, section, part, place)?;
                let position = place.positions.iter().find(|known| known.id == *id)?;
                Some(self.position_name(place, position))
            }
            PlanItem::Look(section, part, place, id) => {
                let look = find_place(plan, section, part, place)?;
                let look = look.looks.iter().find(|known| known.id == *id)?;
                let (section, part) = find_part(plan, section, part)?;
                let place = part.places.iter().find(|known| known.id == *place);
                let way = self.way_to(section, part, place);
                Some([&way, self.characteristic_name(look)].join(DOT))
            }
            _ => None,
        }
    }

    /// `Camshaft › Lobes › Lobe, exhaust`; what is called as what it stands in is not said again.
    fn way_to(&self, section: &Section, part: &Part, place: Option<&Place>) -> String {
        let names = [
            Some(self.section_name(section)),
            Some(self.part_name(part)),
            place.map(|place| self.place_name(place)),
        ];
        let mut way: Vec<&str> = names.into_iter().flatten().collect();
        way.dedup();
        way.join(" › ")
    }

    /// A characteristic by its id alone, with the name that it first has in a plan.
    pub fn look_name(&self, plan: &Plan, id: &str) -> String {
        let mut looks = plan.places().flat_map(|(.., place)| &place.looks);
        let own = looks.find(|look| look.id.as_str() == id);
        let term = self.terms.looks.get(id);
        own.map_or_else(
            || term.map_or(id, |term| term.name),
            |look| self.characteristic_name(look),
        )
        .to_owned()
    }

    /// A section or a part by its path with the section before it: "Camshaft › Lobes".
    pub fn node_way(&self, plan: &Plan, path: &str) -> String {
        let name = self.node(plan, path);
        match path.split_once('/') {
            Some((section, _)) => {
                let section = self.node(plan, section);
                [section.as_str(), &name].join(" › ")
            }
            None => name,
        }
    }

    /// A field in the middle of a sentence.
    pub fn plan_field(&self, field: Field) -> &'static str {
        let fields = &self.plan_fields;
        match field {
            Field::Name => fields.name,
            Field::Version => fields.version,
            Field::Depth => fields.depth,
            Field::Layout => fields.layout,
            Field::Order => fields.order,
            Field::UBias => fields.u_bias,
            Field::Label => fields.label,
            Field::Weight => fields.weight,
            Field::Axis => fields.axis,
            Field::Column => fields.column,
            Field::Scale => fields.scale,
            Field::Regime => fields.regime,
            Field::URep => fields.u_rep,
            Field::Method => fields.method,
            Field::Score => fields.score,
            Field::Factor => fields.factor,
            Field::Merit => fields.merit,
            Field::X => fields.x,
            Field::AsNew => fields.as_new,
            Field::Limit => fields.limit,
            Field::Cap => fields.cap,
            Field::Node => fields.node,
            Field::Within => fields.within,
            Field::Characteristic => fields.characteristic,
            Field::When => fields.when,
            Field::Figure => fields.figure,
            Field::Anchor => fields.anchor,
            Field::Best => fields.best,
        }
    }

    /// A difference of a plan from another, in a line.
    pub fn plan_difference(&self, plan: &Plan, other: &Plan, difference: &Difference) -> String {
        let words = &self.plans;
        let item = &difference.item;
        let what = match difference.change {
            Change::Removed => self.plan_item(other, plan, item),
            _ => self.plan_item(plan, other, item),
        };
        match &difference.change {
            Change::Added => words.was_added(&what),
            // What has no id does not come back.
            Change::Removed if !other.has(item) => words.was_taken_out(&what),
            Change::Removed => words.was_removed(&what),
            Change::Field { field, from, to } => {
                let name = self.plan_field(*field);
                match (self.held(other, from), self.held(plan, to)) {
                    (Some(from), Some(to)) => words.changed(&what, name, &from, &to),
                    _ => words.changed_too(&what, name),
                }
            }
        }
    }

    /// What a field holds; nothing where that is too long for a line.
    fn held(&self, plan: &Plan, held: &Held) -> Option<String> {
        Some(match held {
            Held::Nothing => self.common.none.to_owned(),
            Held::Figure(figure) => self.numbers.plain(*figure),
            Held::Text(text) => text.clone(),
            Held::Depth(Depth::Full) => self.facts.full.to_owned(),
            Held::Depth(Depth::Short) => self.facts.short.to_owned(),
            Held::Axis(axis) => self.axis(*axis).to_owned(),
            Held::Scale(scale) => self.scale(scale.as_str()).to_owned(),
            Held::Regime(regime) => lowered(self.regime(*regime)),
            Held::Repeatability(u_rep) => self.u_rep(*u_rep),
            Held::Method(method) => lowered(self.method(*method)),
            Held::Node(node) => self.node(plan, node),
            Held::Characteristic(look) => self.look_name(plan, look.as_str()),
            Held::Trigger(when) => self.trigger(plan, when),
            Held::TradeFigure(figure) => self.trade_figure(*figure).to_owned(),
            Held::Layout(_) | Held::Order(_) => return None,
        })
    }

    /// What positions are counted along.
    pub fn axis(&self, axis: Axis) -> &'static str {
        match axis {
            Axis::Cylinder => self.plans.along_cylinder,
            Axis::Main => self.plans.along_main,
            Axis::CamBearing | Axis::Each => self.plans.along_each,
            Axis::Single => self.plans.along_single,
        }
    }

    /// A repeatability with its unit.
    fn u_rep(&self, u_rep: Repeatability) -> String {
        let (Repeatability::Score(u) | Repeatability::Percent(u) | Repeatability::Count(u)) = u_rep;
        [self.numbers.plain(u).as_str(), self.u_rep_unit(u_rep)].join(" ")
    }

    /// The unit of a repeatability.
    pub fn u_rep_unit(&self, u_rep: Repeatability) -> &'static str {
        match u_rep {
            Repeatability::Score(_) => self.plans.unit_score,
            Repeatability::Percent(_) => self.plans.unit_percent,
            Repeatability::Count(_) => self.plans.unit_count,
        }
    }

    /// What sets a cap rule off: "heavy or worse", "over 10 %".
    pub fn trigger(&self, plan: &Plan, when: &Trigger) -> String {
        let numbers = self.numbers;
        match when {
            Trigger::GradeAtLeast(grade) => self.names.or_worse(&lowered(&self.grade(*grade))),
            Trigger::PercentOver(percent) => self.names.over(&numbers.percent(*percent)),
            Trigger::CountOver(count) => self.names.over(&numbers.short(*count as f64, 0)),
            Trigger::StateIn(states) => {
                // A state of the author's own stands on one scale, one of the built-in plan is the same
                // on each.
                let name = |state: &StateId| {
                    let scales = plan.scales.values();
                    let label = scales.filter_map(|scale| scale.label_of(state.as_str()));
                    let term = self.terms.states.get(state.as_str()).copied();
                    let term = || term.unwrap_or(state.as_str());
                    lowered(label.map(String::as_str).next().unwrap_or_else(term))
                };
                let states: Vec<String> = states.iter().map(name).collect();
                states.join(&[" ", self.names.or, " "].concat())
            }
        }
    }

    /// What is wrong in a plan and where, in a line.
    pub fn plan_problem(&self, plan: &Plan, problem: &Problem) -> String {
        let place = self.plan_item(plan, plan, &problem.item);
        self.plans.problem(&place, &self.plan_problem_here(problem))
    }

    /// What is wrong, where the place is plain to see.
    pub fn plan_problem_here(&self, problem: &Problem) -> String {
        let why = match (&problem.why, problem.field) {
            (
                PlanError::OutOfRange {
                    given, low, high, ..
                },
                Some(field),
            ) => self.out_of_range(self.plan_field(field), [*given, *low, *high]),
            (why, _) => self.contradiction_at(why).1,
        };
        capitalised(&why)
    }

    /// Why a plan was not changed.
    pub fn edit_error(&self, error: &EditError) -> String {
        let words = &self.plans;
        match error {
            EditError::NotThere => words.not_there.to_owned(),
            EditError::NoName => words.no_name.to_owned(),
            EditError::LongName { given } => words.too_long(*given, LONGEST_LABEL),
            EditError::Each { given } => words.each(*given, MOST_EACH),
            EditError::NothingToCap => words.nothing_to_cap.to_owned(),
            EditError::AtEnd => words.at_end.to_owned(),
            EditError::InUse { rows } => words.in_use(*rows),
            EditError::Scale(why) => super::capitalised(&self.scale_wrong(why)),
            EditError::NotWhole { given } => self.errors.not_whole(&self.numbers.plain(*given)),
        }
    }

    /// Why a plan's file was not taken.
    pub fn plan_file_error(&self, error: &PlanFileError) -> String {
        use ringland_card::file::{FileError, MOST_PIECE_BYTES, PLAN_VERSION};
        match error {
            PlanFileError::TooLarge { given } => {
                let bytes = |bytes: usize| self.numbers.bytes(bytes as u64);
                let most = bytes(MOST_PIECE_BYTES);
                self.errors.too_large(&bytes(*given), &most)
            }
            PlanFileError::Json(why) => self.file_error(&FileError::Json(why.clone())),
            PlanFileError::NotAPlan | PlanFileError::NoVersion => self.plans.not_a_plan.to_owned(),
            PlanFileError::Newer { version } => self.errors.newer(*version, PLAN_VERSION),
            PlanFileError::Member(why) => self.file_error(why),
            PlanFileError::Contradiction(why) => self.plan_error(why),
        }
    }
}

fn find_section<'p>(plan: &'p Plan, id: &SectionId) -> Option<&'p Section> {
    plan.sections.iter().find(|section| section.id == *id)
}

fn find_part<'p>(
    plan: &'p Plan,
    section: &SectionId,
    part: &PartId,
) -> Option<(&'p Section, &'p Part)> {
    let section = find_section(plan, section)?;
    let part = section.parts.iter().find(|known| known.id == *part)?;
    Some((section, part))
}

fn find_place<'p>(
    plan: &'p Plan,
    section: &SectionId,
    part: &PartId,
    place: &PlaceId,
) -> Option<&'p Place> {
    let (_, part) = find_part(plan, section, part)?;
    part.places.iter().find(|known| known.id == *place)
}
