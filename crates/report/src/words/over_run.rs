//! Words of wear against distance, engine beside engine.

use super::catalogue::words;

words! {
    /// Wear against distance on the Gauging screen.
    OverRun {
        lead = "This engine beside the others on this tablet: a mark for each strip-down, and where the next is to be expected";
        begin = "Show with the engines on this tablet";
        again = "Read the engines on this tablet again";
        reading = "Reading the engines…";
        stopped = "Stopped: not all engines were read";
        unreadable(n: usize) = "{n} {n?engine:engines} could not be read";
        stands_for = "An engine counts by";
        most = "Its most worn position";
        mean = "The mean of its positions";
        start = "Wear begins";
        start_zero = "At nothing";
        start_free = "With a break-in";
        which = "Engines";
        same_model = "Of this model";
        every_model = "All";
        count(engines: usize, strips: &str) = "{engines} {engines?engine:engines}, {strips}";
        strips(n: usize) = "{n} {n?strip-down:strip-downs}";
        left_out(n: usize) = "{n} left out: no distance, or this was not measured there with its new size known";
        either_way = "This size may go either way, so it has no wear that could be drawn against distance";
        nothing = "No engine here has a distance and this wear";
        one_only = "One strip-down makes no curve. What it says by itself stands under “How much further”";
        no_curve = "These readings make no curve";
        line = "A straight line";
        power = "A power law";
        taken(curve: &str, why: &str) = "Taken: {curve}, {why}";
        why_better(by: &str) = "which fits clearly better (AICc lower by {by})";
        why_simpler = "as the other fits no better by a margin that could be told, and it is the simpler one";
        why_few(got: usize, least: usize) = "as {got} {got?reading:readings} cannot tell the two apart (it takes {least})";
        why_no_power = "as no power law goes through these readings";
        exponent(figure: &str, range: &str) = "Wear grows as distance to the power {figure} ({range})";
        whole(limit: &str, run: &str) = "A new part’s run to this engine’s limit, {limit} of wear: {run}";
        whole_at_least(low: &str) = "at least {low}";
        whole_none = "no end in sight";
        whole_far(run: &str, furthest: &str) = "{run}; the furthest reading here is at {furthest}, and beyond it the curve is only drawn on";
        no_limit = "No limit is known for this engine, so nothing is said of how far it is";
        others_agree(wear: &str, range: &str) = "This engine has worn {wear}, as the others let expect ({range})";
        others_more(wear: &str, range: &str) = "This engine has worn {wear}: more than the others let expect ({range})";
        others_less(wear: &str, range: &str) = "This engine has worn {wear}: less than the others let expect ({range})";
        last_apart(name: &str, wear: &str, range: &str) = "{name}: its last reading, {wear}, is not where its earlier ones lead ({range})";
        differ = "The engines’ own rates differ by more than chance: one curve through all of them hides that";
        assumes = "95 % intervals. Each engine is one draw from engines like it; their oils, duties and drains may differ, which this picture does not take apart";
    }
}
