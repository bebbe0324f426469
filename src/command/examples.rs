//! Examples of every command: one table, that `--help` and the manual page end with and a test runs.

/// Something to type, and what it is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Example {
    /// A line for the shell.
    pub line: &'static str,
    /// What it does for the grower.
    pub does: &'static str,
}

const fn example(line: &'static str, does: &'static str) -> Example {
    Example { line, does }
}

/// The words of each command after `trug`, and its examples.
pub const EXAMPLES: [(&str, &[Example]); 40] = [
    (
        "",
        &[
            example(
                "trug choose --use market-bunch --colour plum",
                "Finds plum flowers for bunches, best first",
            ),
            example(
                "trug key centre=open rows=6 diameter=4in",
                "Names the form of a bloom",
            ),
            example(
                "trug start garden",
                "Makes a folder of your own, which --at garden then uses",
            ),
        ],
    ),
    (
        "key",
        &[
            example(
                "trug key centre=open rows=6 diameter=98mm,104mm",
                "Keys a bloom by two that were measured",
            ),
            example(
                "trug key 'tip=rounded|pointed' rows=10+ rolled=3/4",
                "Says what fits where you are not sure, and what to look at next",
            ),
            example(
                "trug key --from blooms.csv",
                "Keys a bloom a line, with headings such as tip and rows",
            ),
        ],
    ),
    (
        "choose",
        &[
            example(
                "trug choose --use market-bunch --colour plum --within 12",
                "Finds plum flowers for bunches, best first, and says why",
            ),
            example(
                "trug choose squill --where size=small --sort price",
                "Finds a name, however spelt, cheapest first",
            ),
            example(
                "trug choose --shortlist --book book.pdf",
                "Prints your shortlist as a book",
            ),
        ],
    ),
    (
        "variety",
        &[
            example(
                "trug variety add 'Kist Lum' form=pompon colour=plum",
                "Adds a variety to your list",
            ),
            example(
                "trug variety set 'Kist Lum' notes='from the show'",
                "Changes a field of it",
            ),
        ],
    ),
    (
        "variety add",
        &[
            example(
                "trug variety add 'Kist Ember' form=ball colour=red supplier='Oar Bulbs' price=4.50 pack=3",
                "Adds one with its form, its colour and where it can be bought",
            ),
            example(
                "trug variety add 'Kist Foam' colour='plum (main, tipped); white (second, tipped)' --json",
                "Adds one of two colours, and answers another program",
            ),
        ],
    ),
    (
        "variety set",
        &[
            example(
                "trug variety set 'Kist Ember' price=5 available=12 closes=2027-02-28",
                "Changes its first offer",
            ),
            example(
                "trug variety set 'Kist Ember' supplier-2='Kale Yard' price-2=2 pack-2=1",
                "Adds a second offer",
            ),
            example(
                "trug variety set 'Kist Ember' on-hand=4 notes=",
                "Counts the tubers in your store, and takes the notes away",
            ),
        ],
    ),
    (
        "variety drop",
        &[
            example("trug variety drop 'Kist Foam'", "Drops it"),
            example(
                "trug variety drop 'Kist Lum' --even-so",
                "Drops it even where the trial row or the order go by its name",
            ),
        ],
    ),
    (
        "variety life",
        &[
            example(
                "trug variety life 'Haaf Churn'",
                "Shows what was lifted, lost and sold of it, year by year and day by day",
            ),
            example("trug variety life 24-001", "The same of a seedling"),
        ],
    ),
    (
        "row",
        &[
            example(
                "trug row",
                "Lists every plant on trial, what needs doing first on top",
            ),
            example(
                "trug row 24-002",
                "Adds up what you noted of one plant, and advises",
            ),
            example(
                "trug row 24-002 --chart plant.pdf",
                "Prints its days in the vase and its diameters by day",
            ),
        ],
    ),
    (
        "row add",
        &[
            example(
                "trug row add --seed 'Haaf Squill' --pollen open-pollinated",
                "Adds a seedling, with this year's next number",
            ),
            example(
                "trug row add 26-090 --row 'kale yard' --place 12",
                "Adds one with its number and its place",
            ),
            example(
                "trug row add 26-091..26-096 seed='Haaf Squill' place=13",
                "Adds six of one cross, in places that count on",
            ),
        ],
    ),
    (
        "row set",
        &[
            example(
                "trug row set 24-002 place=14",
                "Corrects where a seedling stands",
            ),
            example(
                "trug row set 26-090 seed='Haaf Squill' pollen=",
                "Corrects its parents; the pollen parent is not known",
            ),
        ],
    ),
    (
        "row drop",
        &[
            example(
                "trug row drop 26-090",
                "Drops one of which nothing was noted",
            ),
            example(
                "trug row drop 26-091 26-092 --json",
                "Drops two, and answers another program",
            ),
        ],
    ),
    (
        "row note",
        &[
            example(
                "trug row note 24-002 date=2026-09-04 diameter=68mm,71mm vase=7,8,6+",
                "Notes two blooms across, and the days of three stems in the vase",
            ),
            example(
                "trug row note 24-002 date=2026-09-04 tip=rounded weather=wind:3/12",
                "Notes a trait, and 3 of 12 open blooms damaged by wind",
            ),
            example(
                "trug row note 24-002 withdraw=637",
                "Takes back entry 637, which `trug row 24-002` shows among its entries",
            ),
        ],
    ),
    (
        "row decide",
        &[
            example(
                "trug row decide 24-002 keep --reason 'stands wind'",
                "Keeps a seedling, so that it gets a tag",
            ),
            example(
                "trug row decide 24-012 cull",
                "Gives one up; its notes stay",
            ),
        ],
    ),
    (
        "row compare",
        &[
            example(
                "trug row compare 24-001 25-004",
                "Tells which of two lasts longer in the vase",
            ),
            example(
                "trug row compare 24-001 24-002 25-004",
                "The same of three, each with each",
            ),
        ],
    ),
    (
        "row sheet",
        &[
            example(
                "trug row sheet --for blooms --out blooms.pdf",
                "Prints a table to fill in beside the row",
            ),
            example(
                "trug row sheet --out counts.csv",
                "Writes a table of counts to fill in on a phone or a computer",
            ),
        ],
    ),
    (
        "row import",
        &[
            example(
                "trug row import counts.csv --preview",
                "Shows what would be taken",
            ),
            example("trug row import counts.csv", "Takes it"),
        ],
    ),
    (
        "stock",
        &[
            example(
                "trug stock",
                "Lists whose tubers there are, what may be sold, and what the winters took",
            ),
            example(
                "trug stock 24-001",
                "Shows one plant by year and place, its promises and its entries",
            ),
            example(
                "trug stock --plan",
                "Says by the order how many of each to keep, and how many may be sold",
            ),
        ],
    ),
    (
        "stock note",
        &[
            example(
                "trug stock note 24-002 date=2026-10-24 lifted=2 divided=11 stored=11 place=byre",
                "Notes what two clumps gave, and where it lies",
            ),
            example(
                "trug stock note 24-001 date=2026-11-20 lost=2 why=rotten",
                "Notes what was lost in store",
            ),
            example(
                "trug stock note 24-001 date=2026-11-21 sold=4 price=4.50 to='quay stall'",
                "Notes a sale",
            ),
        ],
    ),
    (
        "stock prices",
        &[
            example(
                "trug stock prices",
                "Lists what is free to sell, from white to dark, and says what is left out and why",
            ),
            example(
                "trug stock prices --by name --out prices.pdf",
                "Prints it for the stall, with a drawing of each",
            ),
            example(
                "trug stock prices --out prices.csv",
                "Writes it for a spreadsheet or a shop",
            ),
        ],
    ),
    (
        "stock sheet",
        &[
            example(
                "trug stock sheet --for sale --out sale.pdf",
                "Prints a table for the stall",
            ),
            example(
                "trug stock sheet --for store --out store.csv",
                "Writes one to fill in after the store was looked through",
            ),
        ],
    ),
    (
        "stock import",
        &[
            example(
                "trug stock import store.csv --preview",
                "Shows what of the filled table would be taken",
            ),
            example(
                "trug stock import store.csv --date '21 Nov 2026'",
                "Takes it, its rows of that day",
            ),
        ],
    ),
    (
        "order",
        &[
            example(
                "trug order --on-average --set money=500 --add-bed 'byre length=10m' --chart",
                "Tries it with less money and one more bed, and shows the season week by week",
            ),
            example(
                "trug order --sheet order.pdf --beds beds.pdf --chart season.svg --calendar dates.ics",
                "Writes the order to send off, what grows where, the season as a chart, and the dates to keep",
            ),
            example(
                "trug order --work --add-event 'wedding: 2027-09-12 12 table bowl, 8 buttonhole colours=plum'",
                "Tells the stems that a wedding takes, by part and week",
            ),
        ],
    ),
    (
        "tag",
        &[
            example(
                "trug tag --out tags.pdf",
                "Prints sale tags of every seedling that you keep",
            ),
            example(
                "trug tag 24-002 --copies 12 --price 4.50 --from 5 --out twelve.pdf",
                "Prints twelve of one plant with a price, on a sheet of which four labels are used",
            ),
            example(
                "trug tag --test-page --out test.pdf",
                "Prints a page to hold against your sheet of labels",
            ),
        ],
    ),
    (
        "start",
        &[
            example("trug start allotment", "Makes an empty folder to fill"),
            example(
                "trug start practice --demo",
                "Makes one with the demo in it, to try things out",
            ),
        ],
    ),
    (
        "settings",
        &[
            example(
                "trug settings",
                "Shows what is set, and what each setting means",
            ),
            example(
                "trug settings set units=mm 'grower=Skerry Lane'",
                "Has lengths shown in millimetres, and your name on order sheets",
            ),
        ],
    ),
    (
        "settings set",
        &[
            example(
                "trug settings set 'last-frost=14 May' 'first-frost=5 October'",
                "Says when frosts usually come, for every new order",
            ),
            example("trug settings set currency=kroner", "Says what money is in"),
            example(
                "trug settings set ground=light",
                "Has colours that are read on a light terminal",
            ),
        ],
    ),
    (
        "export",
        &[
            example("trug export list.csv", "Writes the whole list"),
            example(
                "trug export plums.csv --colour plum --within 10",
                "Writes what is near to plum",
            ),
        ],
    ),
    (
        "import",
        &[
            example(
                "trug import list.csv --preview",
                "Shows how the file would be read",
            ),
            example(
                "trug import list.csv --supplier 'Tidegrass Tubers'",
                "Takes a supplier's list",
            ),
            example(
                "trug import list.csv --map form:'dinner plate'=informal-decorative",
                "Says what a word of the list means; that is remembered",
            ),
        ],
    ),
    (
        "colour",
        &[
            example(
                "trug colour '#b3446c'",
                "Names a colour, and the varieties nearest to it",
            ),
            example(
                "trug colour plum wine",
                "Says how far apart two colours are",
            ),
        ],
    ),
    (
        "name",
        &[
            example(
                "trug name 'Skerry Lantern'",
                "Checks a name before you give it to a seedling",
            ),
            example(
                "trug name Haaf Squil",
                "Finds names in your list that are spelt or sound nearly the same",
            ),
        ],
    ),
    (
        "rules",
        &[
            example("trug rules", "Lists the rule sets, with their shapes"),
            example("trug rules show pompon", "Shows one form"),
        ],
    ),
    (
        "rules show",
        &[
            example(
                "trug rules show pompon",
                "Shows the rule of a form, its sizes and a drawing",
            ),
            example(
                "trug rules show waterlily --rules register-mm",
                "The same by the international register",
            ),
        ],
    ),
    (
        "rules words",
        &[
            example("trug rules words", "Explains every word"),
            example("trug rules words --json", "The same for another program"),
        ],
    ),
    (
        "rules prove",
        &[
            example(
                "trug rules prove",
                "Checks the rule set that you use, such as one that you edited",
            ),
            example(
                "trug rules prove --smt claims.smt2",
                "Writes the claims for a solver as well",
            ),
        ],
    ),
    (
        "rules card",
        &[
            example(
                "trug rules card --out card.pdf",
                "Prints the key to fold for your pocket",
            ),
            example(
                "trug rules card --by-list",
                "Asks first what tells apart the forms that you grow",
            ),
        ],
    ),
    (
        "rules chart",
        &[
            example(
                "trug rules chart --out chart.pdf",
                "Prints a chart of all forms",
            ),
            example(
                "trug rules chart --out chart.pdf --paper a4 --replace",
                "The same on other paper, in place of the first",
            ),
        ],
    ),
    (
        "rules compare",
        &[
            example(
                "trug rules compare trade-inch register-mm",
                "Shows what the register names otherwise than the trade",
            ),
            example(
                "trug rules compare register-mm trade-inch --json",
                "The other way round, for another program",
            ),
        ],
    ),
    (
        "completions",
        &[
            example(
                "trug completions bash > trug.bash",
                "Writes them; bash reads them with: source trug.bash",
            ),
            example("trug completions fish > trug.fish", "The same for fish"),
        ],
    ),
    (
        "man",
        &[
            example("trug man | man -l -", "Reads it"),
            example(
                "trug man > trug.1",
                "Writes it, to put with your other manual pages",
            ),
        ],
    ),
];

/// The examples of a command, by its words after `trug`.
pub fn of(command: &str) -> &'static [Example] {
    let found = EXAMPLES.iter().find(|(words, _)| *words == command);
    found.map_or(&[], |(_, examples)| examples)
}
