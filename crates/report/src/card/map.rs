//! The wear map of the whole engine: a row for each place, a cell for each position.

use ringland_assess::Answer;
use ringland_card::plan::{LeafId, Place};

use super::{BLOCK, Sheet, block};
use crate::{markup::Html, ramp};

impl Sheet<'_> {
    /// The map; what is pressed on it leads to how it was made.
    pub fn map(&self) -> String {
        let words = self.words;
        let mut html = Html::new();
        let bites = self.result.all.nodes.iter().filter_map(|at| at.cap);
        let caps: Vec<LeafId> = bites.map(|bite| bite.set_off_by).collect();
        html.open("div class=\"overview\"");
        for number in 0..self.card.plan().sections.len() {
            self.map_section(&mut html, number, &caps);
        }
        html.close("div")
            .el("p class=\"fine\"", words.card.map_marks);
        block(BLOCK, words.card.wear_map, words.card.map_hint, html)
    }

    fn map_section(&self, html: &mut Html, number: usize, caps: &[LeafId]) {
        let words = self.words;
        let section = &self.card.plan().sections[number];
        let node = self.tree.nodes()[0].children[number];
        let at = &self.result.all.nodes[node];
        let figure = [
            &self.score_or_dash(at.score),
            " · ",
            &words.numbers.share(at.coverage),
        ]
        .concat();
        html.open("section class=\"overview__section\"")
            .open("h3 class=\"overview__title\"");
        html.with(
            "button type=\"button\" class=\"overview__open\"",
            &[("data-go", &node.to_string())],
        )
        .el("span", words.section_name(section))
        .el("span class=\"overview__figure num\"", &figure)
        .close("button")
        .close("h3");
        let places = section.parts.iter().flat_map(|part| &part.places);
        let mut columns: Option<Vec<&str>> = None;
        for place in places {
            let own: Vec<&str> = place
                .positions
                .iter()
                .map(|position| position.column.as_str())
                .collect();
            if columns.as_ref() != Some(&own) {
                if columns.is_some() {
                    html.close("tbody").close("table");
                }
                self.map_heads(html, words.section_name(section), &own);
                columns = Some(own);
            }
            self.map_row(html, place, caps);
        }
        html.close("tbody").close("table").close("section");
    }

    fn map_heads(&self, html: &mut Html, section: &str, columns: &[&str]) {
        html.open("table class=\"map map--small\"")
            .el("caption class=\"visually-hidden\"", section)
            .open("colgroup")
            .open("col class=\"map__names\"/")
            .close("colgroup");
        if columns.iter().any(|column| !column.is_empty()) {
            html.open("thead").open("tr").open("td").close("td");
            for column in columns {
                html.el("th scope=\"col\"", self.words.column_head(column));
            }
            html.close("tr").close("thead");
        }
        html.open("tbody");
    }

    fn map_row(&self, html: &mut Html, place: &Place, caps: &[LeafId]) {
        html.open("tr")
            .el("th scope=\"row\"", self.words.place_name(place));
        for position in &place.positions {
            let leaves = self
                .card
                .index()
                .of_position(self.card.plan(), position.id.as_str());
            self.map_cell(html, LeafId(leaves.start), caps);
        }
        html.close("tr");
    }

    fn map_cell(&self, html: &mut Html, first: LeafId, caps: &[LeafId]) {
        let words = self.words;
        let leaf = self.tree.node_of(first);
        let node = self.tree.nodes()[leaf].parent.unwrap_or(leaf);
        let at = &self.result.all.nodes[node];
        let leaves = first.0..first.0 + self.tree.nodes()[node].children.len();
        let answers = &self.result.answers[leaves.clone()];
        let open = answers.contains(&Answer::Open);
        let (class, text, said) = match at.score {
            Some(score) => (ramp::class(score), words.numbers.score(score), None),
            None if open => ("cell--open", "·".to_owned(), Some(words.bench.open)),
            None => (
                "cell--not",
                words.bench.not_inspected_mark.to_owned(),
                Some(words.bench.not_inspected),
            ),
        };
        let caps = caps.iter().any(|leaf| leaves.contains(&leaf.0));
        let caused = leaves
            .clone()
            .any(|leaf| self.result.causes[leaf].excludes());
        let name = words
            .position(self.card.plan(), self.card.index(), first)
            .unwrap_or_default();
        let said = said.map_or_else(|| text.clone(), |said| [&text, " ", said].concat());
        let mut label = words.names.rating(&name, &said);
        let mut marks = String::new();
        for (set, mark, meaning) in [
            (caps, '▾', words.bench.mark_cap),
            (caused, '×', words.bench.mark_cause),
        ] {
            if set {
                marks.push(mark);
                label = [label.as_str(), ", ", meaning].concat();
            }
        }
        let class = ["cell ", class].concat();
        html.open("td").with(
            "button type=\"button\"",
            &[
                ("class", &class),
                ("data-go", &node.to_string()),
                ("aria-label", &label),
            ],
        );
        html.text(&text)
            .el("span class=\"cell__marks\" aria-hidden=\"true\"", &marks)
            .close("button")
            .close("td");
    }
}
