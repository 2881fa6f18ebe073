//! The photos of a card on a page that carries their pictures.

use std::collections::BTreeSet;

use ringland_card::{Body, Photo, PhotoDigest, plan::LeafId};

use super::{BLOCK, Sheet, block};
use crate::{
    markup::Html,
    photo::{Album, Group, Shown, figure},
};

impl Sheet<'_> {
    /// The photos by position; nothing where the card has none or photos have a screen of their own.
    pub fn photos(&self) -> String {
        let Some(here) = self.pictures else {
            return String::new();
        };
        let (words, album) = (self.words, Album::of(&self.standing));
        let mut html = Html::new();
        // A picture stands once on the page: those of the worst positions stand beside them.
        let above = self.photos_of_worst();
        let below = |shown: &Shown<'_>| {
            let digest = &shown.photo.digest;
            here.contains(digest) && !above.contains(digest)
        };
        for group in album.groups(&self.standing, words) {
            self.photo_group(&mut html, &album, &group, &below);
        }
        if above.iter().any(|digest| here.contains(digest)) {
            html.el("p class=\"fine\"", words.photos.above);
        }
        let missing = album
            .photos
            .iter()
            .filter(|shown| !here.contains(&shown.photo.digest));
        let missing = missing.count();
        if missing > 0 {
            html.el("p class=\"fine\"", &words.photos.not_in_page(missing));
        }
        if album
            .photos
            .iter()
            .any(|shown| shown.marks.iter().any(|(_, mark)| mark.is_length()))
        {
            html.el("p class=\"fine\"", words.photos.read_off);
        }
        block(BLOCK, words.photos.title, "", html)
    }

    fn photo_group(
        &self,
        html: &mut Html,
        album: &Album<'_>,
        group: &Group,
        is_below: &dyn Fn(&Shown<'_>) -> bool,
    ) {
        let photos = group.photos.iter().map(|number| &album.photos[*number]);
        let photos: Vec<&Shown<'_>> = photos.filter(|shown| is_below(shown)).collect();
        if photos.is_empty() {
            return;
        }
        html.open("section class=\"album__group\"")
            .el("h3", &group.title)
            .open("div class=\"album\"");
        for shown in photos {
            self.photo(html, shown, &group.title);
        }
        html.close("div").close("section");
    }

    fn photo(&self, html: &mut Html, shown: &Shown<'_>, title: &str) {
        let by = self
            .words
            .pad
            .by(&shown.entry.rater, &self.when(shown.entry));
        figure(html, self.words, shown, title, &by);
    }

    /// The first photo of a leaf's position, beside what was seen there, unless it is `pictured` already.
    pub(super) fn photo_of_leaf(
        &self,
        html: &mut Html,
        leaf: LeafId,
        pictured: &mut BTreeSet<PhotoDigest>,
    ) {
        let Some(here) = self.pictures else { return };
        let album = Album::of(&self.standing);
        let first = self.first_photo(&album, leaf);
        let first = first.filter(|shown| here.contains(&shown.photo.digest));
        if let Some(shown) = first.filter(|shown| pictured.insert(shown.photo.digest)) {
            let title = self.words.photo_of(self.card, shown.entry);
            self.photo(html, shown, &title);
        }
    }

    fn first_photo<'s>(&self, album: &'s Album<'_>, leaf: LeafId) -> Option<&'s Shown<'s>> {
        let position = self.card.index().leaf(leaf)?.position(self.card.plan());
        let number = album.at(Some(position.id.as_str())).first()?;
        album.photos.get(*number)
    }

    /// The photos of the positions that hold the engine down most, one of each.
    pub fn photos_of_worst(&self) -> BTreeSet<PhotoDigest> {
        let album = Album::of(&self.standing);
        let first = |leaf| Some(self.first_photo(&album, leaf)?.photo.digest);
        self.worst_shown()
            .filter_map(|(leaf, _)| first(leaf))
            .collect()
    }

    /// Every photo that stands on the card.
    pub fn all_photos(&self) -> impl Iterator<Item = &Photo> {
        self.standing
            .photos
            .iter()
            .filter_map(|entry| match &entry.body {
                Body::Photo { photo, .. } => Some(&**photo),
                _ => None,
            })
    }
}
