//! What a card promises, from outside: merging, what holds, the file, and every refusal.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot go on fails, in its helpers too"
)]

mod backups;
mod bench;
mod coming;
mod depths;
mod gauging;
mod histories;
mod hostile;
mod merging;
mod older;
mod own_order;
mod own_plans;
mod own_rules;
mod own_scales;
mod own_sizes;
mod photo_areas;
mod photos;
mod plan_files;
mod refusals;
mod refused_plans;
mod round_trip;
mod seals;
mod sliced;
mod standing;
