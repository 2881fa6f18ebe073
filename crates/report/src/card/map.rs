//! The wear map of the whole engine; what is pressed on it leads to how it was made.

use super::{BLOCK, Sheet, block};
use crate::{
    markup::Html,
    wear_map::{Leads, WearMap},
};

impl Sheet<'_> {
    /// The map.
    pub fn map(&self) -> String {
        let words = self.words;
        let map = WearMap::new(self.card, self.tree, self.result, words);
        let mut html = Html::new();
        html.markup(&map.whole(if self.still {
            Leads::ToRow
        } else {
            Leads::ToMaking
        }))
        .el("p class=\"fine\"", words.card.map_marks);
        block(BLOCK, words.card.wear_map, words.card.map_hint, html)
    }
}
