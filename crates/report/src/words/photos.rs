//! Words of photos and of what is marked on them.

use ringland_card::{
    Card, Entry, Mark, Photo,
    entry::Body,
    file::{BundleError, MOST_BUNDLE_BYTES, MOST_MEMBERS, PackedError},
    photo::{
        LONGEST_LABEL, MOST_CORNERS, MOST_PHOTO_BYTES, MOST_PHOTO_SIDE, MarkError, PictureError,
    },
};

use super::{Words, catalogue::words};

words! {
    /// Photos.
    Photos {
        title = "Photos";
        count(n: usize) = "{n} {n?photo:photos}";
        take = "Take a photo";
        from_files = "Photos from files";
        here = "Photos of this position";
        more = "Photos…";
        wall = "All photos of the engine";
        of_engine = "The whole engine";
        as_found = "as found";
        cleaned = "cleaned";
        show_part = "The next photos show the part";
        full_size = "Keep the next ones in full size";
        full_size_hint(most: &str) = "Otherwise the longer side is made {most} pixels at most. Where and with what a photo was taken is never kept";
        keeping(n: usize, all: usize) = "Keeping photo {n} of {all}…";
        kept(n: usize) = "{n} {n?photo:photos} kept";
        not_kept(file: &str, why: &str) = "{file} was not kept. {why}";
        none = "There is no photo yet";
        none_hint = "Take one on the Bench beside the rating of its position, or of the whole engine here";
        not_hung(n: usize) = "{n} more {n?is:are} on the card than this page shows at once";
        by_position = "By position";
        side_by_side = "Side by side along the engine";
        row = "Kind of place";
        none_here = "no photo";
        gone = "Its picture is not on this tablet. The engine’s file with photos brings it";
        alt(what: &str, taken: &str) = "Photo: {what}, {taken}";
        open(what: &str) = "Open the photo: {what}";
        back = "Back to the photos";
        earlier = "Photo before";
        later = "Next photo";
        marks = "Marks";
        no_marks = "Nothing is marked on this photo";
        arrow = "Arrow";
        outline = "Outline";
        note = "Words";
        scale = "Known length";
        length = "Measure";
        arrow_hint = "Drag from where the words go to what they are about";
        outline_hint = "Tap the corners one after the other, then Done";
        note_hint = "Tap where the words go";
        scale_hint = "Drag along something of known length, such as a rule beside the part";
        length_hint = "Drag along what is to be measured. It needs a known length on the same photo";
        text = "What it says";
        known = "How long that is";
        known_bad = "Type a length above 0";
        unit = "Unit";
        done = "Done";
        cancel = "Leave it";
        no_scale = "no known length on this photo";
        read_off = "Read off a photo: right only for what lies in the plane of the known length, photographed square on";
        take_out = "Take it out";
        take_out_photo = "Take the photo out";
        taken_out = "The photo was taken out. It stays in the log";
        entry_photo(what: &str, taken: &str) = "Photo: {what}, {taken}";
        entry_mark(mark: &str, what: &str) = "{mark} on the photo of {what}";
        save_with = "Save with photos";
        saving_with = "Writing the file with photos…";
        saved_with(name: &str, photos: &str, bytes: &str) = "{name} saved with {photos}, {bytes}";
        saved_without(n: usize) = "{n} {n?photo is:photos are} named on the card but not on this tablet, and not in the file";
        came(n: usize) = "{n} {n?photo:photos} came with it";
        refused(n: usize, why: &str) = "{n} {n?photo was:photos were} left out. {why}";
        without(n: usize) = "{n} {n?photo is:photos are} named on it and did not come with it";
        others(n: usize) = "{n} {n?file:files} in it {n?is:are} neither the card nor a photo, and {n?was:were} left out";
        not_in_backup(n: usize) = "A backup holds no photos. {n} {n?engine has:engines have} some: save {n?it:each} with photos, too";
        in_report = "Photos in the report";
        in_report_none = "None";
        in_report_worst = "Those of the worst positions";
        in_report_all = "All that are here";
        in_report_size(photos: &str, bytes: &str) = "{photos}, {bytes} more";
        above = "Those of the worst positions stand beside them above";
        not_in_page(n: usize) = "{n} {n?photo is:photos are} not in this page";
        no_picture = "The browser cannot read it as a picture";
        error_kind = "Only JPEG, PNG and WebP pictures are kept";
        error_damaged = "The picture is damaged: its size cannot be read";
        error_side(width: &str, height: &str, most: &str) = "It has {width} × {height} pixels. Allowed is {most} a side at most";
        error_bytes(given: &str, most: &str) = "It has {given}. Allowed is {most} at most";
        error_outside = "A mark must lie on the photo";
        error_no_extent = "Both ends of the mark are the same point";
        error_corners(given: usize, most: usize) = "An outline has 3 to {most} corners; this one has {given}";
        error_text(given: usize, most: usize) = "The words of a mark have 1 to {most} characters; these have {given}";
        error_known(given: &str) = "{given} is no known length. Allowed is more than 0, in a unit of length";
        error_not_a_photo = "Only photos are marked";
        bundle_large(given: &str, most: &str) = "The file has {given}. Allowed is {most} at most";
        bundle_damaged = "This is no whole zip archive: it was cut short or damaged";
        bundle_many(most: usize) = "There are more than {most} files in it, the most allowed";
        bundle_no_card = "There is no card in this archive";
        bundle_cards(given: usize) = "There are {given} cards in this archive. Allowed is one: open each by itself";
        bundle_card = "The card in this archive cannot be unpacked";
        packed_damaged = "It cannot be unpacked, or is too large";
        packed_digest = "Its content is not what its name says: it was changed or damaged";
        packed_differs = "It is not the picture that the card describes";
    }
}

impl Words {
    /// What a photo shows: its position, or the engine.
    pub fn photo_of(&self, card: &Card, photo: &Entry) -> String {
        match &photo.body {
            Body::Photo {
                about: Some(about), ..
            } => self.about(card.plan(), about),
            _ => self.photos.of_engine.to_owned(),
        }
    }

    /// A photo's entry, in a line.
    pub(super) fn photo_entry(&self, card: &Card, entry: &Entry, photo: &Photo) -> String {
        let what = self.photo_of(card, entry);
        self.photos.entry_photo(&what, self.taken(photo.taken))
    }

    /// A mark's entry, in a line.
    pub(super) fn mark_entry(&self, card: &Card, on: Option<&Entry>, mark: &Mark) -> String {
        let what = on.map_or_else(|| self.names.gone.to_owned(), |on| self.photo_of(card, on));
        self.photos.entry_mark(&self.mark(mark), &what)
    }

    /// A mark and what it says: "Arrow: pitted here".
    pub fn mark(&self, mark: &Mark) -> String {
        let p = &self.photos;
        let kind = match mark {
            Mark::Arrow { .. } => p.arrow,
            Mark::Outline { .. } => p.outline,
            Mark::Note { .. } => p.note,
            Mark::Scale { .. } => p.scale,
            Mark::Length { .. } => p.length,
        };
        let text = match mark {
            Mark::Scale { length, unit, .. } => {
                let figure = self.numbers.as_typed(length.as_str());
                [&figure, "\u{a0}", unit.sign()].concat()
            }
            mark => mark.text().to_owned(),
        };
        if text.is_empty() {
            kind.to_owned()
        } else {
            self.names.rating(kind, &text)
        }
    }

    /// Why a picture was refused.
    pub fn picture_refused(&self, error: &PictureError) -> String {
        let p = &self.photos;
        match error {
            PictureError::Kind => p.error_kind.to_owned(),
            PictureError::Damaged => p.error_damaged.to_owned(),
            PictureError::Side { width, height } => {
                let [width, height] = [*width, *height].map(|side| side.to_string());
                p.error_side(
                    &width,
                    &height,
                    &self.numbers.count(MOST_PHOTO_SIDE as usize),
                )
            }
            PictureError::Bytes { given } => p.error_bytes(
                &self.numbers.bytes(*given),
                &self.numbers.bytes(MOST_PHOTO_BYTES),
            ),
        }
    }

    /// Why a mark was refused.
    pub fn mark_refused(&self, error: &MarkError) -> String {
        let p = &self.photos;
        match error {
            MarkError::Outside { .. } => p.error_outside.to_owned(),
            MarkError::NoExtent => p.error_no_extent.to_owned(),
            MarkError::Corners { given } => p.error_corners(*given, MOST_CORNERS),
            MarkError::Text { given } => p.error_text(*given, LONGEST_LABEL),
            MarkError::Known { given } => p.error_known(&self.numbers.as_typed(given)),
        }
    }

    /// Why a file with photos was refused.
    pub fn bundle_refused(&self, error: &BundleError) -> String {
        let p = &self.photos;
        match error {
            BundleError::TooLarge { given } => p.bundle_large(
                &self.numbers.bytes(*given as u64),
                &self.numbers.bytes(MOST_BUNDLE_BYTES as u64),
            ),
            BundleError::Damaged => p.bundle_damaged.to_owned(),
            BundleError::TooMany => p.bundle_many(MOST_MEMBERS),
            BundleError::NotOneCard { given: 0 } => p.bundle_no_card.to_owned(),
            BundleError::NotOneCard { given } => p.bundle_cards(*given),
            BundleError::Card => p.bundle_card.to_owned(),
        }
    }

    /// Why a photo of a file was left out.
    pub fn packed_refused(&self, error: &PackedError) -> String {
        let p = &self.photos;
        match error {
            PackedError::Damaged => p.packed_damaged.to_owned(),
            PackedError::Digest => p.packed_digest.to_owned(),
            PackedError::Picture(why) => self.picture_refused(why),
            PackedError::Differs => p.packed_differs.to_owned(),
        }
    }
}
