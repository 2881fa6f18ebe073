//! Where a finger is on a photo.

use ringland_card::photo::{Picture, Point};
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent};

/// How near to the first corner of an outline a tap ends it rather than adding another, as a share of the longer side.
const NEAR: f64 = 0.02;

/// Holds the finger to the element that it came down on, so that a line may end where it has left the photo.
pub fn hold(event: &PointerEvent) {
    event.prevent_default();
    if let Some(target) = element(event) {
        let _held = target.set_pointer_capture(event.pointer_id());
    }
}

/// Where a finger is, in pixels of the photo, held to its edges.
pub fn place(event: &PointerEvent, picture: &Picture) -> Option<Point> {
    let shown = element(event)?.get_bounding_client_rect();
    let of = |at: i32, from: f64, size: f64, pixels: u32| {
        // A tenth of a pixel is finer than any hand.
        let pixels = f64::from(pixels);
        let along = ((f64::from(at) - from) / size * pixels * 10.0).round() / 10.0;
        along.clamp(0.0, pixels)
    };
    (shown.width() > 0.0 && shown.height() > 0.0).then(|| Point {
        x: of(event.client_x(), shown.left(), shown.width(), picture.width),
        y: of(
            event.client_y(),
            shown.top(),
            shown.height(),
            picture.height,
        ),
    })
}

/// Whether a tap closes an outline.
pub fn closes(corners: &[Point], at: Point, picture: &Picture) -> bool {
    let near = NEAR * f64::from(picture.width.max(picture.height));
    corners.len() >= 3
        && corners
            .first()
            .is_some_and(|first| first.distance(at) < near)
}

fn element(event: &PointerEvent) -> Option<Element> {
    event.target()?.dyn_into().ok()
}
