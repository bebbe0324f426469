//! What is good to know of a command beyond its options: one table, that `--help` and the manual page
//! show before the examples.

/// The words of a command after `trug`, and what is good to know of it, a paragraph each.
pub const NOTES: [(&str, &[&str]); 15] = [
    (
        "",
        &[
            "Without a command the screen opens. `?` lists the keys of a page, Tab goes to the next \
             page, `:` finds a variety, a seedling, a form, a figure or a command by name, `u` takes \
             back the last change, `q` quits.",
            "Your folder is the one that --at or TRUG_AT names, else the one that you stand in or \
             that lies above, else the usual one. With none, an answer is of the demo and says so; \
             the demo keeps nothing. `F` on the screen makes a folder and goes on in it.",
            "Your records are plain text. A save keeps your comments, your order and your units as \
             you wrote them.",
        ],
    ),
    (
        "key",
        &[
            "An answer may be one value (rows=5), a choice ('tip=rounded|pointed'), a range \
             (rows=4..7, rows=10+), several blooms (diameter=98mm,'3 1/2 in'), ? or a part by eye \
             (rolled=1/4, 'rolled=a third'). You never have to answer them all.",
            "An eye's half is not 50 % to the point: a part by eye is taken as 5 hundredths to either \
             side (assumed), and where a limit lies within, both forms stay possible.",
            "The rules are exact: what fits is what they still allow. The shares forgive: any answer \
             may be mistaken, so one wrong look does not bury the right form. Close to a limit it \
             says on which side the blooms are, how sure that is, and how many more to measure.",
        ],
    ),
    (
        "choose",
        &[
            "A use ranks by what is known of a variety, and where nothing is known by what its form \
             leads one to expect. What is not known even so counts as the middle of your list, so \
             that what nobody has seen never comes first. Each reason says which. What you saw of a \
             variety in the row counts.",
            "How far apart two colours are is told in CIEDE2000. A broad word such as warm is a \
             region, and what lies within it is 0 away. A bloom goes by what it mostly shows: its main \
             colour counts in full, another by as much as is seen of it.",
            "In bloom (--in-bloom) is what your row saw so in that week of any year, and else what the \
             season of your order leads one to expect, from the first cut to the first frost.",
        ],
    ),
    (
        "row",
        &[
            "What the notes add up to is worked out anew each time: the form by all looks together, \
             the mean diameter by the means of days, since blooms of one day are alike, the median of \
             the vase test with stems still fresh counted as such, damage by weather, stems a plant a \
             week.",
            "The gate is your own rule for what may stay: it advises keep, hold or cull, says why, and \
             says what is still missing. A limit is held against the whole 95 % interval: surely \
             beyond it speaks for culling, surely within it for keeping. You decide.",
        ],
    ),
    (
        "row note",
        &[
            "Nothing is written over: a correction is a new note that names the one it corrects, and \
             a note is on the disk before it is called saved.",
            "What is odd is asked after, such as a bloom of 9 in among blooms of 3.4 in: --even-so \
             saves it as it is. withdraw=NUMBER takes an entry of the plant out, and a withdrawal too.",
        ],
    ),
    (
        "row compare",
        &[
            "Vase tests are small, so it goes by every arrangement of the stems, and says nothing from \
             too few of them.",
        ],
    ),
    (
        "stock",
        &[
            "Tubers come into the book as divided, or as stored where they were not divided before; what \
             is divided and then stored counts once. What is here and neither promised nor kept back is \
             free to sell. A sale or a gift to the name that was promised keeps the promise.",
            "Losses are counted over the winter, of tubers that were lost, or were still there or left the \
             store in the new year. A plant of which few were stored is taken to be much like the others, \
             and the limits say how little that is. The order goes by them once twenty tubers came \
             through.",
        ],
    ),
    (
        "stock note",
        &[
            "Nothing is written over: a correction is a new note that names the one it corrects, and \
             a note is on the disk before it is called saved. No number falls below 0: a note that \
             would make one do so is refused.",
            "Tubers are of the lifting of the last autumn unless year= says another. Without place= they \
             are taken from what lies at no place, then from your places by name.",
        ],
    ),
    (
        "order",
        &[
            "order.ron holds the plan: what is needed (so many stems a week, in these weeks, for a \
             use, in these colours or forms), what there is (beds, money, tubers in store, each \
             supplier's postage, least order and closing date), and how the season goes.",
            "A need for a use takes what fits it by 70 % or more where you do not say how well (our own \
             choice), and goes by what a bloom mostly shows of its colours. by=main goes by the main \
             colour alone, by=any by any of a bloom's colours, by=every by each colour of its petals.",
            "An event is a day, pieces and colours; a round is the same on one day of every week. \
             They become needs in the weeks in which their stems are cut, and --work lists them. The \
             pieces (table bowl, large vase, bride's bunch, buttonhole, wristlet, arch, market bunch, \
             jar) say how many stems of each part they take: write a pieces.ron in your folder to \
             change one or add your own.",
            "Met means surely: each need has all its stems, in all its weeks, in so many seasons of 100 as it \
             asks for (sure=0.9; 80 where nothing is said, an event 95). An event or a round is so sure as one, \
             all of its parts together. Such an order is the least that was found, and not proved. --risk tells the chance week by week, --surer what being surer costs, and \
             --on-average the proved least for a usual season, which may fail in others.",
            "What was settled is kept beside the plan (order.settled.ron) and settled again only where \
             something has changed that it was settled from.",
            "Proved means that no order at all that meets your needs costs less. A search that is \
             stopped says how far it may be from that. Where it costs less to buy up to a least order \
             or to free postage, the order is filled up with whatever is cheapest, and says so.",
            "Where the needs cannot all be met, it says what is short, in which weeks and by how many \
             stems, and what would mend it. Each piece of advice names the very change to make, and \
             was tried before it was given.",
            "Every figure is shown with its source: yours, a published range, or assumed. --season \
             compares a harvest with its plan, and --take-counts lets the next plan go by what you \
             counted.",
        ],
    ),
    (
        "tag",
        &[
            "A tag claims what your notes show and no more: a form that is not settled is 'not yet \
             known', a use is 'expected of its form' where it was not seen, and what only a supplier \
             states is said to be stated. A mean, a median or a season needs as many blooms, stems or \
             years as the gate asks for. The QR code holds the same as plain text.",
            "A tag for a buyer begins with Dahlia and the name; what is no variety yet has its number, \
             without marks. Who sells, where, at what price and a line of your own (the number of a \
             registration, a passport or a permit) are those of `trug settings`, and each is left out \
             where it is not set. Widths are told in both units.",
            "--copies 12 prints twelve of each, --copies 24-001=5 five of one; --numbered tells 3 of 12 on \
             each. --from 5 begins at the fifth label of a sheet that is half used. A roll prints one \
             label a page, of exactly its size: keep the sizes of your own rolls in the file that \
             --stock writes.",
            "Plants that get no tag are named with the reason: a protected variety without a licence \
             on record, a culled seedling, a name that does not fit.",
            "Labels want aligning once: print --test-page, hold it against your sheet, and give the \
             --offset that it shows. The sheets in it are round figures of our own: measure the \
             labels that you buy, and keep your own in the file that --stock writes.",
        ],
    ),
    (
        "import",
        &[
            "A file is taken whole or, with what is wrong listed by line, not at all. Spellings of the \
             trade such as 'Min. Ball' are read as they are, and so are several colours in a cell: \
             'plum/wine', 'plum with a white tip'. Two rows of one variety from two suppliers are one \
             variety with two offers. What `trug export` writes comes back as the same list.",
            "What you measured and what somebody states are kept apart, and so are your own tubers and \
             a supplier's: --map heading:Stock=available says which. Your answer is remembered.",
        ],
    ),
    ("name", &["The registrar has the last word."]),
    (
        "rules",
        &[
            "Form lists are revised, so forms are data: trade-inch (the trade's forms, limits in \
             inches) and register-mm (the international register's groups, limits in millimetres) are \
             files that you can copy into the rules folder of your own and edit.",
        ],
    ),
    (
        "rules prove",
        &[
            "The proof is over all complete blooms; where a rule set has a gap or gives a bloom two \
             forms, it shows such a bloom. --smt writes the claims so that any SMT-LIB 2 solver can \
             check them.",
        ],
    ),
    (
        "rules card",
        &[
            "It is the shortest key that there is. With --out it is one page to fold in four, with a \
             drawing of every shape.",
        ],
    ),
];

/// What is good to know of a command, by its words after `trug`.
pub fn of(command: &str) -> &'static [&'static str] {
    let found = NOTES.iter().find(|(words, _)| *words == command);
    found.map_or(&[], |(_, notes)| notes)
}
