//! Words of areas that are read off a photo.

use ringland_assess::look::parting_u;
use ringland_card::{
    Look, Scale,
    photo::{MOST_CLASSES, MOST_CORNERS, MOST_LEFT_OUT, MOST_PHOTO_SIDE, PhotoAreasError, Shade},
};

use super::{Words, catalogue::words};

words! {
    /// Areas that are read off a photo.
    PhotoAreas {
        title = "Areas from a photo";
        from_photo = "Read off a photo";
        photo_first = "Take a photo of this position first, square on and without glare";
        back = "Back to the photo";
        what = "What is rated";
        nothing_by_area = "Nothing in this position is rated by area";
        tools = "Where";
        region = "Surface";
        region_hint = "Tap the corners of the surface that is read, one after the other";
        whole_photo = "Whole photo";
        outline = "Leave out";
        outline_hint = "Tap the corners of glare or shadow, then press the button once more for the next";
        brush = "Brush out";
        brush_hint = "Drag over glare or shadow";
        straighten = "Straighten";
        straighten_hint = "Tap the four corners of what is a rectangle on the part, in order. For a photo taken at a slant";
        back_one = "Last one back";
        parted_by = "Told apart by";
        lightness = "Lightness";
        yellowness = "Yellowness";
        chroma = "Colour against grey";
        by_lightness = "by lightness";
        by_yellowness = "by yellowness";
        by_chroma = "by colour against grey";
        how_many = "Classes";
        classes = "Classes and their levels";
        class(n: usize) = "Class {n}";
        level_of(n: usize) = "Level of class {n}";
        cut(below: usize, above: usize) = "Where class {below} and class {above} part";
        shades = "How much of the surface has each shade, from the lowest to the highest";
        colour_classes = "Colour the classes on the photo";
        start_over = "Part them anew";
        parting(moved: u8) = "U is twice what moving each parting by {moved} of 256 shades leaves open. It goes into the uncertainty of the score";
        counting = "Counting…";
        no_region = "Outline the surface on the photo, or read the whole photo";
        one_shade = "The surface has fewer shades than classes";
        bad_rectangle = "The four corners cannot be those of a rectangle on this surface: tap them in order, and keep the surface on their side of the horizon";
        empty = "Nothing of the photo is left in the surface";
        no_worker = "This browser does not let the photo be read";
        to_pad = "Take it to the pad";
        proposed(classes: usize, by: &str) = "Read off a photo: {classes} classes {by}. Look whether it is what you see, change what is not, then keep it";
        drop = "Leave the photo’s figures";
        said(classes: usize, by: &str) = "read off a photo: {classes} classes {by}";
        said_u(u: &str) = "where the classes part leaves u = {u} in the score";
        changed = "changed by hand since";
        error_corners(given: usize, most: usize) = "The surface and what is left out of it have 3 to {most} corners each, a brush 1 to {most}; one has {given}";
        error_brush(given: &str, most: usize) = "The brush is {given} pixels wide. Allowed is 1 to {most}";
        error_left_out(given: usize, most: usize) = "{given} parts are left out. Allowed is {most} at most";
        error_cuts(classes: usize, cuts: usize, most: usize) = "{classes} classes and {cuts} partings. Allowed are 2 to {most} classes, and partings between them in rising order";
        error_percent = "The classes do not make up the whole surface";
        refused(at: &str, why: &str) = "{at}, as read off the photo: {why}";
    }
}

impl Words {
    /// What pixels are told apart by: "Lightness".
    pub fn shade(&self, shade: Shade) -> &'static str {
        let words = &self.photo_areas;
        match shade {
            Shade::Lightness => words.lightness,
            Shade::Yellowness => words.yellowness,
            Shade::Chroma => words.chroma,
        }
    }

    /// The same within a sentence: "by lightness".
    pub fn by_shade(&self, shade: Shade) -> &'static str {
        let words = &self.photo_areas;
        match shade {
            Shade::Lightness => words.by_lightness,
            Shade::Yellowness => words.by_yellowness,
            Shade::Chroma => words.by_chroma,
        }
    }

    /// How areas were read off a photo: "read off a photo: 3 classes by lightness; where the classes part leaves
    /// u = 0.12 in the score". Nothing where they were seen by eye.
    pub fn read_off_said(&self, look: &Look, scale: &Scale) -> Option<String> {
        let Look::Areas(areas) = look else {
            return None;
        };
        let (words, read) = (&self.photo_areas, areas.read_off.as_ref()?);
        let mut said = vec![words.said(read.classes.len(), self.by_shade(read.shade))];
        if let Some(u) = parting_u(areas, scale) {
            said.push(words.said_u(&self.numbers.u(u)));
        }
        if areas.changed_by_hand() {
            said.push(words.changed.to_owned());
        }
        Some(said.join("; "))
    }

    /// Why a reading of areas off a photo was refused.
    pub fn photo_areas_refused(&self, error: &PhotoAreasError) -> String {
        let words = &self.photo_areas;
        match error {
            PhotoAreasError::Outside(_) => self.photos.error_outside.to_owned(),
            PhotoAreasError::Corners { given } => words.error_corners(*given, MOST_CORNERS),
            PhotoAreasError::Brush { given } => {
                words.error_brush(&self.numbers.short(*given, 1), MOST_PHOTO_SIDE as usize)
            }
            PhotoAreasError::LeftOut { given } => words.error_left_out(*given, MOST_LEFT_OUT),
            PhotoAreasError::Cuts { cuts, classes } => {
                words.error_cuts(*classes, *cuts, MOST_CLASSES)
            }
            PhotoAreasError::Percent => words.error_percent.to_owned(),
        }
    }
}
