//! Words of the Bench: the wear map and the rating pad.

use super::catalogue::words;

words! {
    /// The wear map and what stands around it.
    Bench {
        wear_map = "Wear map";
        whole_engine = "Whole engine";
        sections = "Sections";
        all_done = "Everything looked at";
        all_done_hint = "The Card has the result";
        looked_at(done: usize, all: usize) = "{done} of {all} looked at";
        progress = "How much has been looked at";
        keeping = "Keeping…";
        kept_at(time: &str) = "Kept on this tablet {time}";
        not_kept = "Not kept";
        kept_then(what: &str, next: &str) = "{what}. Next: {next}";
        n_kept(n: usize, what: &str) = "{n} kept alike: {what}";
        find = "Find a part";
        find_none(text: &str) = "Nothing is called “{text}” in this plan";
        undo = "Undo";
        redo = "Redo";
        undone = "Undone";
        undone_reason = "undone";
        by_position = "By position";
        rater(name: &str) = "Rater: {name}";
        no_rater = "Who rates?";
        name_rater_first = "Say who rates before the first look";
        open = "open";
        not_inspected = "not inspected";
        not_inspected_mark = "n/i";
        all = "all";
        mark_cap = "caps its part";
        mark_two = "looked at by more than one rater";
        mark_cause = "has a cause of its own";
        hidden = "looked at by another rater; hidden until you have looked";
        legend = "10 is clean or as new, 0 the worst · ▾ caps its part · ² more than one rater · × has a cause · hatched: open";
        altered = "This card was changed outside Ringland: its digest does not match. It is open to look at, not to write on";
        keys = "Keys";
        front = "front";
        rear = "rear";
    }
}

words! {
    /// The rating pad.
    Pad {
        title = "Rating pad";
        nothing_chosen = "Nothing chosen";
        nothing_chosen_hint = "Press a cell of the map, or start where the last look ended";
        start = "Start";
        go_on = "Go on";
        keep = "Keep";
        skip_to(next: &str) = "On to {next}";
        previous = "Previous";
        back_to_rating = "Back to rating";
        same_as(name: &str) = "Same as {name}";
        same_as_last = "Same as the last";
        row_alike(n: usize) = "All {n} open in this row alike";
        for_open_of_row(n: usize) = "For all {n} open in this row";
        for_whole_position = "For everything in this position";
        not_inspected_more = "Not inspected…";
        not_inspected_why = "Not inspected: why?";
        cause = "Cause";
        cause_of = "What is answerable for it?";
        cause_kept(cause: &str) = "Cause: {cause}";
        cause_of_position(cause: &str) = "Cause of the whole position: {cause}";
        remark = "Remark";
        remark_more = "Remark…";
        remark_label = "What a reader should know";
        history = "History";
        history_more = "History…";
        no_history = "Nobody has looked here yet";
        by(who: &str, when: &str) = "{who}, {when}";
        corrected = "corrected later";
        voided_by(who: &str, why: &str) = "taken out by {who}: {why}";
        void = "Take it out";
        void_more = "Take it out…";
        blind = "Rate blind";
        blind_hint = "What others said of a position stays hidden until you have looked";
        blind_card(n: usize, rater: &str) = "{rater} rates blind. {n} {n?rating:ratings} of others {n?stays:stay} hidden until {rater} has looked, and the Card would show {n?it:them}";
        blind_end = "Stop rating blind and show the Card";
        hidden = "Another rater has looked here. It is shown once you have";
        void_why = "Why?";
        who_rates = "Who rates?";
        rater_name = "Name";
        rater_take = "Rate as this person";
        raters = "Raters";
        score = "Score";
        demerit = "Demerit";
        merit = "Merit";
        plus_minus(u: &str) = "± {u}";
        weight = "Weight";
        front = "front";
        thrust = "thrust";
        rear = "rear";
        anti_thrust = "anti-thrust";
        painter = "Unrolled surface in 36 fields from the front round: drag to paint";
        paint_whole = "Paint it all";
        clean = "clean";
        levels = "Levels";
        over_100(total: &str) = "the shares come to {total}: 100 % is the most";
        percent = "Percent";
        count = "Count";
        how_many = "How many?";
        type_figure = "Or type it";
        not_a_figure = "That is not a figure this takes";
        state = "State";
        grade_keys = "0 to 5 for none to severe; with Shift half a step worse";
    }
}

words! {
    /// What the keys do on the Bench.
    Keys {
        title = "Keys on the Bench";
        arrows = "Arrows";
        arrows_do = "move on the map without rating";
        digits = "0 to 5";
        digits_do = "grade from none to severe";
        shift = "Shift and 0 to 4";
        shift_do = "half a step worse than the grade";
        states = "1 to 9";
        states_do = "the state in that place";
        figures = "Digits, Enter";
        figures_do = "a percentage or a count";
        enter = "Enter";
        enter_do = "on to the next open place";
        same = "S";
        same_do = "same as the last";
        row = "W";
        row_do = "the whole row alike";
        not = "N";
        not_do = "not inspected";
        cause = "C";
        cause_do = "cause";
        remark = "R";
        remark_do = "remark";
        history = "H";
        history_do = "history";
        find = "/";
        find_do = "find a part";
        undo = "U";
        undo_do = "undo";
        redo = "Y";
        redo_do = "redo";
        escape = "Esc";
        escape_do = "back to rating, then to the whole engine";
    }
}
