//! Where a plan contradicts itself, for its author: places, figures and values are named as the file
//! has them, the sentence about them is the reader's.

use ringland_card::{
    plan::{MOST_LEAVES, MOST_LOOKS, MOST_TEXT, PlanError, Several},
    scale::{CLEAN, MOST_ROWS, MOST_SPOTS, ScaleError},
};

use super::{Words, catalogue::words};

words! {
    /// Where a plan contradicts itself.
    PlanErrors {
        plan = "plan";
        cap_rules = "cap rules";
        section = "section";
        part = "part";
        place = "place";
        characteristic = "characteristic";
        location_factor = "location factor";
        cap_rule = "cap rule";
        criterion = "criterion";
        scale = "scale";
        at(place: &str, why: &str) = "{place}: {why}";
        out_of_range(what: &str, given: &str, low: &str, high: &str) = "{what} is {given}: allowed is {low} to {high}";
        no_weight = "every weight is 0, so nothing could be scored";
        empty = "holds nothing";
        twice(id: &str) = "`{id}` stands twice";
        no_scale(scale: &str) = "there is no scale `{scale}` in the plan";
        repeatability(unit: &str, method: &str) = "a repeatability in {unit} does not fit a scale by {method}";
        same_surface(given: &str, allowed: &str) = "names `{given}` as rated by eye on its surface: allowed of this place is {allowed}";
        same_surface_none(given: &str) = "names `{given}` as rated by eye on its surface: nothing else is rated by eye in this place";
        cap_node(node: &str) = "there is no section or part `{node}` in the plan";
        cap_trigger(within: &str) = "what it looks at in `{within}` is not rated as its trigger asks";
        slash(id: &str) = "`{id}` has a `/`, which parts a section from its part";
        anchor(anchor: &str, limit: &str, best: &str) = "the anchor {anchor} must lie between the limit {limit} and the best credit {best}";
        too_large(given: usize, most: usize) = "the plan asks for {given} ratings: allowed is {most} at most";
        scales = "scales";
        states = "states of a cap rule";
        location_factors = "location factors";
        criteria = "criteria";
        too_many(given: usize, most: usize) = "there are {given}: allowed is {most} at most";
        too_much_text(given: &str, most: &str) = "the plan's texts have {given} in all: allowed is {most} at most";
        grade_rises(from: &str, to: &str) = "the grade table rises from {from} to {to}: a worse grade may not score better";
        out_of_order(x: &str, before: &str) = "breakpoint {x} comes after {before}: breakpoints must rise";
        too_long(given: usize, most: usize) = "the table has {given} rows: allowed is {most} at most";
        crowded(given: usize, most: usize) = "has {given} characteristics: allowed is {most} at most";
        too_short(given: usize, least: usize) = "the table has {given} rows: allowed is {least} or more";
        start(first: &str) = "the breakpoints start at {first}: they must start at 0";
        named_clean(clean: &str) = "a level is named `{clean}`: that name is kept for the rest of the area";
        too_many_spots(given: usize, most: usize) = "the grid has {given} heights or axes: allowed is {most} at most";
        difference = "a difference takes two stations and no axes";
        no_allowance(given: &str) = "the limit equals the as-new size, {given}: there is no allowance to use";
    }
}

impl Words {
    /// What contradicts what in a plan; a layout has words of its own.
    pub(super) fn contradiction(&self, error: &PlanError) -> String {
        match self.contradiction_at(error) {
            (Some(place), why) => self.plan_errors.at(&place, &why),
            (None, why) => why,
        }
    }

    /// The place as the file has it, where there is one, and what is wrong there.
    pub(super) fn contradiction_at(&self, error: &PlanError) -> (Option<String>, String) {
        let e = &self.plan_errors;
        let named = |kind: &str, id: &str| format!("{kind} `{id}`");
        let (place, why) = match error {
            PlanError::Layout(why) => return (None, self.layout_error(why)),
            PlanError::TooLarge { given } => return (None, e.too_large(*given, MOST_LEAVES)),
            PlanError::TooMuchText { given } => {
                let bytes = |bytes: usize| self.numbers.bytes(bytes as u64);
                return (None, e.too_much_text(&bytes(*given), &bytes(MOST_TEXT)));
            }
            PlanError::TooMany { what, given } => {
                let place = match what {
                    Several::Scales => e.scales,
                    Several::Caps => e.cap_rules,
                    Several::States => e.states,
                    Several::Factors => e.location_factors,
                    Several::Criteria => e.criteria,
                };
                (place.to_owned(), e.too_many(*given, what.most()))
            }
            PlanError::Scale { scale, why } => (named(e.scale, scale), self.scale_wrong(why)),
            PlanError::OutOfRange {
                place,
                what,
                given,
                low,
                high,
            } => (
                self.plan_place(place),
                self.out_of_range(what, [*given, *low, *high]),
            ),
            PlanError::NoWeight { place } => (self.plan_place(place), e.no_weight.to_owned()),
            PlanError::Empty { place } => (self.plan_place(place), e.empty.to_owned()),
            PlanError::Twice { place, id } => (self.plan_place(place), e.twice(id)),
            PlanError::Crowded { place, given } => {
                (self.plan_place(place), e.crowded(*given, MOST_LOOKS))
            }
            PlanError::NoScale { place, scale } => (self.plan_place(place), e.no_scale(scale)),
            PlanError::Repeatability {
                place,
                unit,
                method,
            } => (self.plan_place(place), e.repeatability(unit, method)),
            PlanError::SameSurface {
                place,
                given,
                allowed,
            } => (
                self.plan_place(place),
                match allowed {
                    Some(allowed) => e.same_surface(given, allowed),
                    None => e.same_surface_none(given),
                },
            ),
            PlanError::CapNode { rule, node } => (named(e.cap_rule, rule), e.cap_node(node)),
            PlanError::CapTrigger { rule, within } => {
                (named(e.cap_rule, rule), e.cap_trigger(within))
            }
            PlanError::Slash { place, id } => (self.plan_place(place), e.slash(id)),
            PlanError::Criterion {
                number,
                anchor,
                limit,
                best,
            } => (
                format!("{} {number}", e.criterion),
                e.anchor(
                    &self.as_filed(*anchor),
                    &self.as_filed(*limit),
                    &self.as_filed(*best),
                ),
            ),
        };
        (Some(place), why)
    }

    pub(super) fn scale_wrong(&self, error: &ScaleError) -> String {
        let e = &self.plan_errors;
        match error {
            ScaleError::OutOfRange {
                what,
                given,
                low,
                high,
            } => self.out_of_range(what, [*given, *low, *high]),
            ScaleError::GradeRises { from, to } => {
                e.grade_rises(&self.as_filed(*from), &self.as_filed(*to))
            }
            ScaleError::OutOfOrder { x, before } => {
                e.out_of_order(&self.as_filed(*x), &self.as_filed(*before))
            }
            ScaleError::TooShort { given, least } => e.too_short(*given, *least),
            ScaleError::TooLong { given } => e.too_long(*given, MOST_ROWS),
            ScaleError::Start { first } => e.start(&self.as_filed(*first)),
            ScaleError::NamedClean => e.named_clean(CLEAN),
            ScaleError::Twice { id } => e.twice(id),
            ScaleError::TooManySpots { given } => e.too_many_spots(*given, MOST_SPOTS),
            ScaleError::Difference => e.difference.to_owned(),
            ScaleError::NoAllowance { given } => e.no_allowance(&self.as_filed(*given)),
        }
    }

    pub(super) fn out_of_range(&self, what: &str, [given, low, high]: [f64; 3]) -> String {
        let e = &self.plan_errors;
        e.out_of_range(
            what,
            &self.as_filed(given),
            &self.as_filed(low),
            &self.as_filed(high),
        )
    }

    /// A figure with every digit that the file has, in the reader's decimal sign.
    fn as_filed(&self, figure: f64) -> String {
        let text = figure.to_string();
        match text.split_once('.') {
            Some((whole, parts)) => format!("{whole}{}{parts}", self.numbers.decimal),
            None => text,
        }
    }

    /// A place as the checks of a plan name it, such as "place `lobe/intake`, characteristic `wear`",
    /// with its kinds in the reader's words and its ids as they are.
    fn plan_place(&self, place: &str) -> String {
        let e = &self.plan_errors;
        let kinds = [
            ("plan", e.plan),
            ("cap rules", e.cap_rules),
            ("section", e.section),
            ("part", e.part),
            ("place", e.place),
            ("characteristic", e.characteristic),
            ("location factor", e.location_factor),
            ("cap rule", e.cap_rule),
            ("criterion", e.criterion),
        ];
        let steps = place.split(", ").map(|step| {
            let (kind, id) =
                match step.find(['`', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9']) {
                    Some(at) => step.split_at(at),
                    None => (step, ""),
                };
            let known = kinds.iter().find(|(known, _)| *known == kind.trim_end());
            known.map_or_else(
                || step.to_owned(),
                |(_, word)| [word, id].join(" ").trim_end().to_owned(),
            )
        });
        steps.collect::<Vec<_>>().join(", ")
    }
}
