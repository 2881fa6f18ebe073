//! HTML under construction, and tables in it.
//!
//! Tags are literals of this crate; whatever else goes in is escaped on the way.

use crate::html::escape;

/// HTML under construction.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Html(String);

impl Html {
    /// Nothing yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// The markup.
    pub fn done(self) -> String {
        self.0
    }

    /// Text.
    pub fn text(&mut self, text: &str) -> &mut Self {
        self.0.push_str(&escape(text));
        self
    }

    /// Markup that is safe as it stands: made by this crate, such as a picture.
    pub fn markup(&mut self, markup: &str) -> &mut Self {
        self.0.push_str(markup);
        self
    }

    /// Opens an element: its name, with attributes that are literals too.
    pub fn open(&mut self, element: &'static str) -> &mut Self {
        self.with(element, &[])
    }

    /// Opens an element with more attributes, whose values are escaped.
    pub fn with(
        &mut self,
        element: &'static str,
        attributes: &[(&'static str, &str)],
    ) -> &mut Self {
        self.0.push('<');
        self.0.push_str(element);
        for (name, value) in attributes {
            self.0.push(' ');
            self.0.push_str(name);
            self.0.push_str("=\"");
            self.0.push_str(&escape(value));
            self.0.push('"');
        }
        self.0.push('>');
        self
    }

    /// Closes an element by its name.
    pub fn close(&mut self, name: &'static str) -> &mut Self {
        self.0.push_str("</");
        self.0.push_str(name);
        self.0.push('>');
        self
    }

    /// An element with nothing but text in it; nothing where the text is empty.
    pub fn el(&mut self, element: &'static str, text: &str) -> &mut Self {
        if text.is_empty() {
            return self;
        }
        let name = element.split(' ').next().unwrap_or(element);
        self.open(element).text(text).close(name)
    }

    /// A list, an item for each text.
    pub fn list(&mut self, element: &'static str, items: &[impl AsRef<str>]) -> &mut Self {
        let name = element.split(' ').next().unwrap_or(element);
        self.open(element);
        for item in items {
            self.el("li", item.as_ref());
        }
        self.close(name)
    }

    /// A table with a caption, headed columns and headed rows.
    pub fn table(&mut self, table: &Table) -> &mut Self {
        if table.wide {
            let frame = "div class=\"table-frame\" role=\"region\" tabindex=\"0\"";
            self.with(frame, &[("aria-label", &table.caption)]);
        }
        let class = ["table ", table.class].concat();
        self.with("table", &[("class", class.trim_end())]);
        self.open(if table.quiet {
            "caption class=\"visually-hidden\""
        } else {
            "caption class=\"table__caption\""
        });
        self.text(&table.caption).close("caption");
        self.open("thead").open("tr");
        for (name, figures) in &table.heads {
            if name.is_empty() {
                self.open("td").close("td");
                continue;
            }
            self.open(if *figures {
                "th scope=\"col\" class=\"table__figure\""
            } else {
                "th scope=\"col\""
            });
            self.text(name).close("th");
        }
        self.close("tr").close("thead").open("tbody");
        for row in &table.rows {
            self.open("tr");
            for (place, cell) in row.iter().enumerate() {
                self.cell(cell, place == 0);
            }
            self.close("tr");
        }
        self.close("tbody").close("table");
        if table.wide {
            self.close("div");
        }
        self
    }

    fn cell(&mut self, cell: &Cell, head: bool) {
        let figure = matches!(cell, Cell::Figure(_));
        self.open(match (head, figure) {
            (true, true) => "th scope=\"row\" class=\"table__figure\"",
            (true, false) => "th scope=\"row\"",
            (false, true) => "td class=\"table__figure\"",
            (false, false) => "td",
        });
        match cell {
            Cell::Words(text) | Cell::Figure(text) => self.text(text),
            Cell::Html(html) => self.markup(&html.0),
        };
        self.close(if head { "th" } else { "td" });
    }
}

/// A cell of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cell {
    /// Words, from the left.
    Words(String),
    /// A figure, from the right.
    Figure(String),
    /// Anything else.
    Html(Html),
}

/// A table. The first cell of each row heads it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// What adds to the look of a table.
    pub class: &'static str,
    /// What it shows.
    pub caption: String,
    /// The columns: name, and whether figures stand below.
    pub heads: Vec<(String, bool)>,
    /// The rows.
    pub rows: Vec<Vec<Cell>>,
    /// Whether it scrolls sideways in a frame where the screen is narrow.
    pub wide: bool,
    /// Whether the caption is for ears only, for a heading above says it to the eyes.
    pub quiet: bool,
}

impl Table {
    /// A table without columns and rows.
    pub fn new(class: &'static str, caption: impl Into<String>) -> Self {
        Self {
            class,
            caption: caption.into(),
            ..Self::default()
        }
    }

    /// The same in a frame that scrolls sideways.
    #[must_use]
    pub fn wide(mut self) -> Self {
        self.wide = true;
        self
    }

    /// The same with a caption for ears only.
    #[must_use]
    pub fn quiet(mut self) -> Self {
        self.quiet = true;
        self
    }

    /// The same with one more column of words.
    #[must_use]
    pub fn words(mut self, name: &str) -> Self {
        self.heads.push((name.to_owned(), false));
        self
    }

    /// The same with one more column of figures.
    #[must_use]
    pub fn figures(mut self, name: &str) -> Self {
        self.heads.push((name.to_owned(), true));
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_comes_in_is_escaped() {
        let mut html = Html::new();
        html.with("p class=\"a\"", &[("title", "\"<x>")])
            .text("1 < 2 & \"3\"")
            .close("p")
            .el("b", "")
            .list("ul", &["<i>"]);
        assert_eq!(
            html.done(),
            "<p class=\"a\" title=\"&quot;&lt;x&gt;\">1 &lt; 2 &amp; &quot;3&quot;</p><ul><li>&lt;i&gt;</li></ul>"
        );
    }

    #[test]
    fn a_table_has_a_caption_and_heads() {
        let mut table = Table::new("", "What").words("Row").figures("n");
        table.rows.push(vec![
            Cell::Words("a".to_owned()),
            Cell::Figure("1".to_owned()),
        ]);
        let mut html = Html::new();
        html.table(&table);
        assert_eq!(
            html.done(),
            "<table class=\"table\"><caption class=\"table__caption\">What</caption>\
             <thead><tr><th scope=\"col\">Row</th><th scope=\"col\" class=\"table__figure\">n</th></tr></thead>\
             <tbody><tr><th scope=\"row\">a</th><td class=\"table__figure\">1</td></tr></tbody></table>"
        );
    }
}
