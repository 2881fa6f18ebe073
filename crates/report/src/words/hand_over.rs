//! Words of the page that is handed over.

use super::catalogue::words;

words! {
    /// The page that is handed over: the result for whoever keeps the engine, and the card in it.
    HandOver {
        title(name: &str) = "{name}: teardown card";
        said = "In plain words";
        said_hint = "Each sentence says one figure of this card and nothing beyond it";
        nothing = "Nothing has been rated yet, so there is nothing to say of this engine";
        rated_all(n: usize) = "All {n} ratings of the plan were made";
        rated_part(done: usize, all: usize, unseen: usize, open: usize) = "{done} of {all} ratings were made; {unseen} could not be looked at, {open} {open?was:were} left open";
        score(score: &str, low: &str, high: &str) = "The engine is at {score}, on a scale where 10 is clean or as new and 0 the worst; with 95 % confidence between {low} and {high}";
        could_move(low: &str, high: &str) = "What was not rated could move that to anything from {low} to {high}";
        lowest(section: &str, score: &str) = "Lowest: {section}, at {score}";
        highest(section: &str, score: &str) = "Highest: {section}, at {score}";
        capped(n: usize) = "{n} {n?part or section is:parts or sections are} held down by a cap, whatever {n?its:their} mean says: marked ▾";
        causes_none = "Nothing was seen that has another cause than service";
        causes(n: usize, causes: &str) = "{n} {n?look has:looks have} another cause than service and {n?is:are} not the oil’s doing: {causes}";
        in_service(score: &str, low: &str, high: &str) = "With those left out, the engine is at {score} ({low} to {high}, 95 %)";
        sizes_none = "No size was measured";
        sizes(done: usize, all: usize) = "{done} of {all} sizes were measured";
        sizes_held(within: usize, beyond: usize, unsaid: usize, none: usize) = "Of these, {within} {within?is:are} within the limit, {beyond} beyond it, {unsaid} cannot be told with the gauge used, and {none} {none?has:have} no limit to be held against";
        first_limit(left: &str) = "Until the engine’s first limit there was left, had it gone on as it has: {left}";
        twice(n: usize) = "{n} {n?position was:positions were} looked at by more than one rater: marked ²";
        alone = "Nothing was looked at by a second rater";
        no_comparison = "One engine by itself says nothing of an oil: that takes other engines, on this oil and on others";
        altered = "The card in this page came from a file that had been altered or damaged after it was written: nothing here is to be relied on";
        contains = "The card in this page";
        contains_said = "This page carries the whole card. Ringland opens the page as it opens the card; any browser gives the card back by the button here";
        take_out = "Save the card out of this page";
        clock(zone: &str) = "Times are those of a clock on {zone}";
        check_said = "Who doubts the page can have it made anew from the card in it, byte for byte, and held beside this one: the command “ringland check” does so";
        save = "Report to hand over";
        saved(name: &str, bytes: &str) = "{name} saved, {bytes}";
        hand_on = "Hand it on…";
        saving = "Writing the report…";
    }
}
