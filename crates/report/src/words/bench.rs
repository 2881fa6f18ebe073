//! Words of the Bench: the wear map and the rating pad.

use super::catalogue::words;

words! {
    /// The wear map and what stands around it.
    Bench {
        wear_map = "Wear map";
        whole_engine = "Whole engine";
        sections = "Sections";
        next_section(name: &str) = "On to {name}";
        section_done(name: &str) = "{name}: everything looked at";
        all_done = "Everything looked at";
        all_done_hint = "The Card has the result";
        looked_at(done: usize, all: usize) = "{done} of {all} looked at";
        progress = "How much has been looked at";
        keeping = "Keeping…";
        kept_at(time: &str) = "Kept on this tablet {time}";
        not_kept = "Not kept";
        keep_again = "Try to keep it again";
        find = "Find a part";
        find_none(text: &str) = "Nothing is called “{text}” in this plan";
        n_found(n: usize) = "{n} found";
        undo = "Undo";
        redo = "Redo";
        undone = "Undone";
        redone = "Done again";
        undone_reason = "undone";
        nothing_to_undo = "Nothing to undo";
        by_position = "By position";
        along_engine = "Along the engine";
        walk_hint = "Which way the pad goes on by itself";
        rater(name: &str) = "Rater: {name}";
        no_rater = "Who rates?";
        name_rater_first = "Say who rates before the first look";
        open = "open";
        not_inspected = "not inspected";
        not_inspected_mark = "n/i";
        all = "all";
        mean_of_row = "Mean of the row";
        mark_cap = "caps its part";
        mark_two = "looked at by more than one rater";
        mark_cause = "has a cause of its own";
        mark_remark = "has a remark";
        hidden = "looked at by another rater; hidden until you have looked";
        legend = "10 is clean or as new, 0 the worst · ▾ caps its part · ² more than one rater · × has a cause · hatched: open";
        altered = "This card was changed outside Ringland: its digest does not match. It is open to look at, not to write on";
        altered_copy = "Take a copy to write on…";
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
        what_to_look_for = "What to look for";
        keep = "Keep";
        keep_and_go(next: &str) = "Keep and go to {next}";
        skip_to(next: &str) = "On to {next}";
        previous = "Previous";
        back_to_rating = "Back to rating";
        same_as(name: &str) = "Same as {name}";
        same_as_last = "Same as the last";
        row_alike(n: usize) = "All {n} open in this row alike";
        row_alike_hint = "Then mend the exceptions one by one";
        for_open_of_row(n: usize) = "For all {n} open in this row";
        for_whole_position = "For everything in this position";
        not_inspected_more = "Not inspected…";
        not_inspected_why = "Not inspected: why?";
        cause = "Cause";
        cause_more = "Cause…";
        cause_of = "What is answerable for it?";
        cause_kept(cause: &str) = "Cause: {cause}";
        cause_of_position(cause: &str) = "Cause of the whole position: {cause}";
        remark = "Remark";
        remark_more = "Remark…";
        remark_label = "What a reader should know";
        no_remarks = "No remarks here";
        history = "History";
        history_more = "History…";
        no_history = "Nobody has looked here yet";
        by(who: &str, when: &str) = "{who}, {when}";
        corrected = "corrected later";
        correction = "corrects an earlier look";
        voided_by(who: &str, why: &str) = "taken out by {who}: {why}";
        correct = "Correct it";
        correct_hint = "Give the look anew: the old one stays in the history";
        void = "Take it out";
        void_more = "Take it out…";
        blind = "Rate blind";
        blind_hint = "What others said of a position stays hidden until you have looked";
        hidden = "Another rater has looked here. It is shown once you have";
        void_why = "Why?";
        who_rates = "Who rates?";
        rater_name = "Name";
        rater_new = "Another rater…";
        rater_take = "Rate as this person";
        second_look = "Second look";
        second_look_hint(name: &str) = "{name} has looked here. Your look stands beside it";
        other_looks_hidden = "Another rater has looked here. What they saw shows after your own look";
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
        painter_flat = "Surface in 36 fields: drag to paint";
        paint_with(level: &str) = "Paint with {level}";
        paint_whole = "Paint it all";
        wipe = "Wipe it clean";
        clean = "clean";
        left_clean(percent: &str) = "{percent} left clean";
        levels = "Levels";
        level_share(level: &str) = "{level}, percent of the area";
        area_hint = "Paint the surface, or type the share of each level in percent";
        typed_hint = "Shares typed by hand are kept as they are; painting starts anew";
        over_100(total: &str) = "the shares come to {total}: 100 % is the most";
        percent = "Percent";
        percent_of = "Percent of the area";
        count = "Count";
        how_many = "How many?";
        more_than(n: usize) = "more than {n}";
        type_figure = "Or type it";
        not_a_figure = "That is not a figure this takes";
        percent_range = "A percentage is from 0 to 100";
        count_range(most: usize) = "A count is a whole number from 0 to {most}";
        compare_area(percent: &str) = "A drawn area of {percent}, to compare";
        compare_grade(grade: &str) = "A drawn surface, {grade}, to compare";
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
