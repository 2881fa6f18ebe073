//! The editor's page: everything of a plan, in parts that are made anew by themselves.

use ringland_card::{
    file::{Origin, plan_digest},
    plan::{Field, PlanItem, Problem},
};

use super::PlanSheet;
use crate::{markup::Html, words::capitalised};

/// A part of the page that is made anew by itself, by its `data-part`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PagePart {
    /// What the plan asks for.
    Line,
    /// The sections.
    Rows,
    /// The scales.
    Scales,
    /// The cap rules.
    Caps,
    /// The criteria of the merit sum.
    Criteria,
    /// What is wrong.
    Problems,
    /// What differs.
    Differs,
    /// How much is wrong, and whether the file can be saved.
    Foot,
}

impl PagePart {
    /// The name of the part.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Line => "line",
            Self::Rows => "rows",
            Self::Scales => "scales",
            Self::Caps => "caps",
            Self::Criteria => "criteria",
            Self::Problems => "problems",
            Self::Differs => "differs",
            Self::Foot => "foot",
        }
    }
}

impl PlanSheet<'_> {
    /// The whole page. `home` is where the list of plans is.
    pub fn page(&self, origin: Option<&Origin>, problems: &[Problem], home: &str) -> String {
        let (words, mut html) = (&self.words.plans, Html::new());
        html.open("header class=\"plan__head\"");
        html.with("a class=\"link plan__home\"", &[("href", home)]);
        html.text(words.title).close("a");
        html.open("h1 tabindex=\"-1\" id=\"plan-title\"");
        html.text(&self.plan.name).close("h1");
        html.el(
            "p class=\"mute\"",
            &capitalised(&self.words.layout_whole(&self.plan.layout)),
        );
        html.el("p class=\"mute\"", &self.derived(origin));
        self.part(&mut html, "p class=\"num\"", "p", PagePart::Line, problems);
        html.open("div class=\"plan__names\"");
        self.text(&mut html, &PlanItem::Plan, Field::Name, &self.plan.name);
        self.text(
            &mut html,
            &PlanItem::Plan,
            Field::Version,
            &self.plan.version,
        );
        html.close("div").close("header");
        self.block(
            &mut html,
            (words.rows, words.rows_hint),
            PagePart::Rows,
            problems,
        );
        self.block(
            &mut html,
            (words.scales, words.scales_hint),
            PagePart::Scales,
            problems,
        );
        let caps_hint = self.words.card.caps_hint;
        self.block(&mut html, (words.caps, caps_hint), PagePart::Caps, problems);
        self.block(
            &mut html,
            (words.criteria, words.criteria_hint),
            PagePart::Criteria,
            problems,
        );
        html.open("section class=\"block\"")
            .el("h2", words.uncertainty);
        html.markup(&self.raters()).close("section");
        html.open("section class=\"block\"")
            .el("h2", words.location_factors);
        html.el("p class=\"fine block__hint\"", words.location_factors_hint);
        html.markup(&self.location_factors()).close("section");
        self.block(
            &mut html,
            (words.problems, ""),
            PagePart::Problems,
            problems,
        );
        self.block(&mut html, (words.differs, ""), PagePart::Differs, problems);
        self.part(
            &mut html,
            "div class=\"plan__foot\"",
            "div",
            PagePart::Foot,
            problems,
        );
        html.done()
    }

    fn derived(&self, origin: Option<&Origin>) -> String {
        let words = &self.words.plans;
        match origin {
            Some(origin) => {
                let from = words.derived(&origin.name, &origin.version);
                if origin.digest == plan_digest(self.parent) {
                    from
                } else {
                    [&from, ". ", words.parent_gone].concat()
                }
            }
            None => words.stands_alone.to_owned(),
        }
    }

    fn block(
        &self,
        html: &mut Html,
        (title, hint): (&str, &str),
        part: PagePart,
        problems: &[Problem],
    ) {
        html.open("section class=\"block\"");
        html.with(
            "h2 tabindex=\"-1\"",
            &[("id", &["plan-", part.as_str()].concat())],
        );
        html.text(title).close("h2");
        html.el("p class=\"fine block__hint\"", hint);
        self.part(html, "div", "div", part, problems);
        html.close("section");
    }

    fn part(
        &self,
        html: &mut Html,
        open: &'static str,
        close: &'static str,
        part: PagePart,
        problems: &[Problem],
    ) {
        html.with(open, &[("data-part", part.as_str())]);
        html.markup(&self.part_of(part, problems)).close(close);
    }

    /// One part of the page.
    pub fn part_of(&self, part: PagePart, problems: &[Problem]) -> String {
        match part {
            PagePart::Line => self.asks_for(),
            PagePart::Rows => self.rows(),
            PagePart::Scales => self.scales(),
            PagePart::Caps => self.caps(),
            PagePart::Criteria => self.criteria(),
            PagePart::Problems => self.problems(problems),
            PagePart::Differs => self.differences(),
            PagePart::Foot => self.foot(problems),
        }
    }

    fn foot(&self, problems: &[Problem]) -> String {
        let (words, mut html) = (&self.words.plans, Html::new());
        html.open("p class=\"plan__state\" role=\"status\"");
        html.text(&match problems.len() {
            0 => capitalised(words.right),
            n => words.n_problems(n),
        });
        html.close("p");
        if problems.is_empty() {
            html.open("button type=\"button\" class=\"button button--act\" data-act=\"save\"");
            html.text(words.save_file).close("button");
        } else {
            html.el("p class=\"fine plan__later\"", words.save_when_right);
            html.open("button type=\"button\" class=\"button\" data-act=\"problems\"");
            html.text(words.problems).close("button");
        }
        html.done()
    }
}
