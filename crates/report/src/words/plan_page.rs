//! Words of the plans of one's own: the list, the editor, what differs, and a card under another plan.

use super::catalogue::words;

words! {
    /// Plans of one's own.
    PlanPage {
        title = "Plans";
        own = "Plans of your own on this tablet";
        none = "No plan of your own yet";
        none_hint = "Derive one from the built-in plan, change what matters to you, and rate new engines under it";
        new_plan = "New plan";
        derive_from = "Derived from";
        built_in_full = "Built-in plan, full";
        built_in_short = "Built-in plan, short";
        layout_of_parent = "The layout is that of the plan it is derived from";
        derive = "Derive the plan";
        open_file = "Open a plan file…";
        opened(name: &str) = "{name} is among your plans";
        opened_altered(name: &str) = "{name} is among your plans, but its file was changed after it was written: its digest does not match. Look through it before you use it";
        edit = "Edit";
        save_file = "Save plan as a file";
        saved(name: &str) = "{name} saved as a file";
        delete = "Delete";
        deleted(name: &str) = "{name} deleted";
        undo = "Undo";
        brought_back(name: &str) = "{name} is back among your plans";
        card_keeps = "Cards rated under it keep it: each carries its plan whole";
        missing = "There is no such plan on this tablet";
        to_plans = "To the plans";
        name = "Name";
        version_said(name: &str, version: &str) = "{name}, version {version}";
        derived(name: &str, version: &str) = "Derived from {name}, version {version}";
        stands_alone = "Derived from no other plan";
        parent_gone = "That plan is not here, so this one is shown beside the built-in plan";
        kept = "Kept on this tablet";
        save_when_right = "It can be saved and used once nothing in it contradicts itself";
        problems = "To put right";
        n_problems(n: usize) = "{n} {n?thing:things} to put right";
        problem(place: &str, why: &str) = "{place}: {why}";
        right = "Nothing in it contradicts itself: it can be used";
        rows = "Sections and rows";
        rows_hint = "A weight counts among what stands beside it. A row that is off is not asked for; what was rated there stays on its card and is not scored";
        n_rows(on: usize, all: usize) = "{on} of {all} {all?row:rows} on";
        off = "off";
        is_on(what: &str) = "{what}: on";
        of(field: &str, what: &str) = "{field}, {what}";
        unit_score = "of score";
        unit_percent = "points of percent";
        unit_count = "counted";
        add_look = "Look at something more here";
        add_place = "Add a place to this part";
        add_part = "Add a part to this section";
        add_section = "Add a section";
        add = "Add";
        added(what: &str) = "{what} added";
        what_section = "Name of the section";
        what_part = "Name of the part";
        what_place = "Name of the place";
        what_look = "What is looked at";
        along = "One for each";
        along_cylinder = "cylinder";
        along_main = "main bearing";
        along_each = "of so many";
        along_single = "engine";
        how_many = "How many";
        scale = "Scale";
        scales = "Scales";
        scales_hint = "A table holds wherever its scale is used";
        used_by(n: usize) = "used by {n} {n?row:rows}";
        add_point = "Add a breakpoint";
        remove = "Remove";
        caps = "Cap rules";
        uncertainty = "Raters";
        location_factors = "Location factors";
        location_factors_hint = "They weigh the demerits of lands and grooves into the total. Left empty, all of them, the total is unweighted; where one is filled in, those left empty count 0";
        differs = "What differs";
        differs_from(name: &str, version: &str) = "From {name}, version {version}";
        differs_none = "Nothing: it is the same plan";
        n_differences(n: usize) = "{n} {n?difference:differences}";
        was_added(what: &str) = "{what}: added";
        was_removed(what: &str) = "{what}: off";
        changed(what: &str, field: &str, from: &str, to: &str) = "{what}: {field} {from} → {to}";
        changed_too(what: &str, field: &str) = "{what}: {field} changed";
        too_long(given: usize, most: usize) = "A name has {most} characters at most; this one has {given}";
        no_name = "Give it a name";
        not_there = "This is not in the plan any more. Load the page again";
        each(given: usize, most: usize) = "Allowed is 1 to {most}, not {given}";
        not_a_plan = "This is not a plan: it does not say that it is one";
        under = "Under another plan";
        under_hint = "The scores that this card would have under another plan, beside its own. The card stays as it is";
        under_choose = "Choose a plan…";
        own_score = "Its own plan";
        other_score = "The other plan";
        difference = "Difference";
        not_in_plan = "not in the plan";
        no_longer(n: usize) = "{n} {n?look:looks} would no longer count: kept on the card, not scored";
        newly_open(n: usize) = "{n} {n?look:looks} would be open";
        nothing_lost = "Everything rated counts under both, and nothing more is open";
        move_card = "Move the card to this plan";
        move_hint = "That is an entry of the card: its log says who moved it and when, and it can be undone";
        moved(name: &str) = "The card is now under {name}";
        moved_back = "The card is under its earlier plan again";
    }
}

words! {
    /// The fields of a plan, in the middle of a sentence.
    PlanFields {
        name = "name";
        version = "version";
        depth = "depth";
        layout = "layout";
        order = "order";
        u_bias = "bias of a rater";
        label = "own name";
        weight = "weight";
        axis = "what its positions are counted along";
        column = "column";
        scale = "scale";
        regime = "lubrication";
        u_rep = "repeatability";
        method = "kind of scale";
        score = "score";
        factor = "factor";
        merit = "merit";
        x = "breakpoint";
        as_new = "as-new size";
        limit = "limit";
        cap = "cap";
        node = "what is capped";
        within = "where it looks";
        characteristic = "what it looks at";
        when = "what sets it off";
        figure = "figure";
        anchor = "anchor";
        best = "best credit";
        row(what: &str, n: usize) = "{what}, row {n}";
        criterion(n: usize) = "Criterion {n}";
        the_plan = "Plan";
        location_factor(what: &str) = "Location factor, {what}";
    }
}
