"""The seeded faults of the demos that worked rows can find: the change as a designer would make it, and what has to be said.

Our own faults, each worked out by hand beside the count tables of the demos before the compiler was tried on them.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True)
class Seeded:
    """demo: its folder. edits: file, text as it stands, text as changed. typed: values entered by hand in pattern.yaml.

    code: of the one report. sizes: by number from 1. says: words and numbers that the report must hold.
    """

    demo: str
    edits: tuple[tuple[str, str, str], ...]
    code: str
    sizes: tuple[int, ...]
    says: tuple[str, ...]
    typed: dict[str, str] = field(default_factory=dict)

    def planted(self, within: Path) -> Path:
        """A copy of the demo with the change made; each text must have been found, once."""
        folder = within / "pattern_sources" / self.demo
        shutil.copytree(ROOT / "pattern_sources" / self.demo, folder)
        for name, old, new in self.edits:
            text = (folder / name).read_text("utf-8")
            assert text.count(old) == 1, (name, old, text.count(old))
            (folder / name).write_text(text.replace(old, new), encoding="utf-8")
        header = folder / "pattern.yaml"
        text = header.read_text("utf-8")
        lines = "".join(
            f"  {name}: {{by_hand: [{_values(row)}], unit: {_unit(row)}}}\n" for name, row in self.typed.items()
        )
        header.write_text(text.replace("\ncounts:\n", f"\ncounts:\n{lines}", 1), encoding="utf-8")
        return folder


def _values(row: str) -> str:
    return ", ".join("not worked" if each == "–" else each for each in row.split()[:-1])


def _unit(row: str) -> str:
    return row.split()[-1]


ALL_5, ALL_3, ALL_9, ALL_10 = (tuple(range(1, number + 1)) for number in (5, 3, 9, 10))

HAT = {
    "A-1": Seeded(
        "cobblewick_hat",
        (("20_brim.md", "Ch <brim_chain>.", "Ch <typed>."),),
        "SP135",
        (3,),
        ("11", "10", "ch 11"),
        {"typed": "9 10 12 12 12 sts"},
    ),
    "A-2": Seeded(
        "cobblewick_hat",
        (("20_brim.md", "until there are <brim_rows> rows", "until there are <typed> rows"),),
        "SP143",
        (3,),
        ("65 rows", "32.5 ribs", "32"),
        {"typed": "50 58 65 70 76 rows"},
    ),
    "A-3": Seeded(
        "cobblewick_hat",
        (("30_body.md", "<brim_groups> times", "<typed> times"),),
        "SP137",
        (1,),
        ("13", "52", "50", "12 times"),
        {"typed": "13 14 16 17 19 times"},
    ),
    "A-4": Seeded(
        "cobblewick_hat",
        (("30_body.md", "all sizes: — <pick_up> sc", "all sizes: — <typed> sc"),),
        "SP135",
        (4,),
        ("87", "88"),
        {"typed": "62 72 80 88 95 sts"},
    ),
    "A-5": Seeded(
        "cobblewick_hat",
        (("30_body.md", "sizes with ribs_left_over > 0:", "sizes with head < 50 cm:"),),
        "SP136",
        (4,),
        ("70", "2 left"),
    ),
    "A-6": Seeded(
        "cobblewick_hat",
        (("30_body.md", "Hdc in each of next <pick_up - 1> sts", "Hdc in each of next <typed> sts"),),
        "SP136",
        (4,),
        ("86", "87", "1 left"),
        {"typed": "61 71 79 85 94 sts"},
    ),
    "A-7": Seeded(
        "cobblewick_hat",
        (
            (
                "40_crown.md",
                "each of next <crown_dec.before(k)>",
                "each of next <typed if k = 1 else crown_dec.before(k)>",
            ),
        ),
        "SP136",
        (4,),
        ("80", "88", "8 left"),
        {"typed": "6 7 8 8 10 sts"},
    ),
    "A-8": Seeded(
        "cobblewick_hat",
        (("40_crown.md", "sts, hdc2tog] 8 times", "sts, hdc2tog] <9 times if k = 2 else 8 times> times"),),
        "SP137",
        ALL_5,
        ("63", "56", "8 times"),
    ),
    "A-9": Seeded(
        "cobblewick_hat",
        (
            (
                "40_crown.md",
                "sts, hdc2tog] 8 times. — <crown_dec.after(k)> hdc",
                "sts, hdc2tog] 8 times. — <typed if k = 4 else crown_dec.after(k)> hdc",
            ),
        ),
        "SP135",
        (3, 4),
        ("48", "56", "swapped", "typed falls from one size to the next"),
        {"typed": "32 40 56 48 64 sts"},
    ),
    "A-9, typed in the text": Seeded(
        "cobblewick_hat",
        (
            (
                "30_body.md",
                "Rnd 3: Hdc in each st around. — <hat_sts> hdc",
                "Rnd 3: Hdc in each st around. — 64 (72, 88, 80, 96) hdc",
            ),
        ),
        "SP135",
        (3, 4),
        ("80", "88", "swapped", "`64 (72, 88, 80, 96)` is a sized number that no formula makes", "<hat_sts>"),
    ),
}

TOP = {
    "B, another underarm on the second side, typed": Seeded(
        "saltmarrow_yoke_top",
        (
            (
                "30_body.md",
                "ch <underarm>,\n  sk next <divide.held> sts (second sleeve)",
                "ch 8 (8, 10, 12, 14) (18, 18, 20, 22),\n  sk next <divide.held> sts (second sleeve)",
            ),
        ),
        "SP135",
        (6,),
        ("34 ch", "32", "ch 16 for 18", "is a sized number that no formula makes", "<underarm>"),
    ),
    "B-1": Seeded(
        "saltmarrow_yoke_top",
        (("20_yoke.md", "<yoke.longer(k)> times", "<typed if k = 2 else yoke.longer(k)> times"),),
        "SP136",
        (5,),
        ("128", "132", "4 left", "30"),
        {"typed": "6 30 10 3 29 4 32 5 34 groups"},
    ),
    "B-2": Seeded(
        "saltmarrow_yoke_top",
        (("20_yoke.md", "on yoke rnd <yoke.on_rnd(k)>", "on yoke rnd <typed if k = 4 else yoke.on_rnd(k)>"),),
        "SP144",
        (4,),
        ("17", "16"),
        {"typed": "16 17 16 17 17 16 17 16 17 rnds"},
    ),
    "B-3": Seeded(
        "saltmarrow_yoke_top",
        (("20_yoke.md", "::: for each k in 1 to yoke.inc_rnds", "::: for each k in 1 to typed"),),
        "SP135",
        (3,),
        ("235", "264"),
        {"typed": "5 5 5 6 6 7 7 8 8 times"},
    ),
    "B-4": Seeded(
        "saltmarrow_yoke_top",
        (("30_body.md", "sk next <divide.held> sts (second sleeve)", "sk next <typed> sts (second sleeve)"),),
        "SP136",
        (9,),
        ("392", "394", "2 left", "74", "72"),
        {"typed": "48 50 52 56 58 62 66 70 72 sts"},
    ),
    "B-5": Seeded(
        "saltmarrow_yoke_top",
        (("30_body.md", "sts (front), ch <underarm>,", "sts (front), ch <typed>,"),),
        "SP135",
        (6,),
        ("34", "32", "16", "18"),
        {"typed": "8 8 10 12 14 18 18 20 22 sts"},
    ),
    "B-6": Seeded(
        "saltmarrow_yoke_top",
        (("30_body.md", "Pm after the first <underarm / 2> sts", "Pm after the first <typed> sts"),),
        "SP164",
        (5,),
        ("14", "7", "6"),
        {"typed": "4 4 5 6 6 8 9 10 11 sts"},
    ),
    "B-7": Seeded(
        "saltmarrow_yoke_top",
        (("40_sleeves.md", "<divide.held> held sts", "<typed> held sts"),),
        "SP137",
        (7,),
        ("86", "84", "66", "68"),
        {"typed": "48 50 52 56 58 62 68 70 74 sts"},
    ),
    "B-8": Seeded(
        "saltmarrow_yoke_top",
        (("40_sleeves.md", "<sleeve.slower_decs> more times", "<typed> more times"),),
        "SP135",
        (6,),
        ("58", "56", "7"),
        {"typed": "3 4 – 2 2 6 6 2 – times"},
    ),
    "B-9": Seeded(
        "saltmarrow_yoke_top",
        (("40_sleeves.md", "Sleeve Dec Rnd: Ch 1, hdc2tog,", "Sleeve Dec Rnd: Ch 2 (counts as hdc), hdc2tog,"),),
        "SP163",
        ALL_9,
        ("counts",),
    ),
    "B-10": Seeded(
        "saltmarrow_yoke_top",
        (
            (
                "50_neckband.md",
                "<band_decs.more> base ch, hdc2tog] <band_decs.more_times> times",
                "<long> base ch, hdc2tog] <longs> times",
            ),
            (
                "50_neckband.md",
                "  [hdc in each of next <band_decs.fewer> base ch, hdc2tog] <band_decs.fewer_times> times,\n"
                "  join with sl st in first hdc. — <neckband.sts> hdc",
                "  [hdc in each of next <short> base ch, hdc2tog] <shorts> times,\n  join with sl st in first hdc. — <made> hdc",
            ),
        ),
        "SP136",
        (5,),
        ("94", "95", "1 left", "96"),
        {
            "long": "– – – – 31 – – 16 12 sts",
            "longs": "– – – – 2 – – 2 2 times",
            "short": "– – – – 30 – – 15 11 sts",
            "shorts": "– – – – 1 – – 4 6 times",
            "made": "– – – – 95 – – 98 98 sts",
        },
    ),
}

WAISTCOAT = {
    "C-1": Seeded(
        "thornhollow_waistcoat",
        (("20_back.md", "Ch <back_sts + 1>.", "Ch <typed>."),),
        "SP135",
        (4,),
        ("82", "81"),
        {"typed": "65 71 77 82 89 95 103 111 119 125 sts"},
    ),
    "C-2": Seeded(
        "thornhollow_waistcoat",
        (("20_back.md", "until <side_rows> hdc rows", "until <typed> hdc rows"),),
        "SP145",
        (3,),
        ("RS", "WS", "31"),
        {"typed": "30 30 31 32 32 32 34 34 34 34 rows"},
    ),
    "C-3": Seeded(
        "thornhollow_waistcoat",
        (("20_back.md", "Sl st in each of first <underarm> sts", "Sl st in each of first <typed> sts"),),
        "SP135",
        (7,),
        ("83", "82"),
        {"typed": "3 4 5 6 7 8 9 12 14 15 sts"},
    ),
    "C-4": Seeded(
        "thornhollow_waistcoat",
        (("20_back.md", "Work Dec Row on next <every_row> rows.", "Work Dec Row on next <typed> rows."),),
        "SP135",
        (6,),
        ("70", "68"),
        {"typed": "1 1 1 3 3 4 5 7 9 9 times"},
    ),
    "C-5": Seeded(
        "thornhollow_waistcoat",
        (("20_back.md", "<every_2nd - 1> more times", "<typed> more times"),),
        "SP135",
        (9,),
        ("62", "64", "3"),
        {"typed": "2 3 4 3 4 3 4 3 4 4 times"},
    ),
    "C-6": Seeded(
        "thornhollow_waistcoat",
        (("20_back.md", "hdc in each of next <shoulder_sts + 1> sts, turn", "hdc in each of next <typed> sts, turn"),),
        "SP135",
        (8,),
        ("21", "20"),
        {"typed": "15 16 16 17 18 18 19 21 20 20 sts"},
    ),
    "C-7": Seeded(
        "thornhollow_waistcoat",
        (("30_right_front.md", "<v_every_4th> more times", "<typed> more times"),),
        "SP135",
        (2,),
        ("8", "9"),
        {"typed": "4 4 4 5 5 4 5 5 6 5 times"},
    ),
    "C-8": Seeded(
        "thornhollow_waistcoat",
        (
            (
                "30_right_front.md",
                "<v_every_2nd> more times, then every 4th row <v_every_4th> more times",
                "<seconds> more times, then every 4th row <fourths> more times",
            ),
        ),
        "SP146",
        (10,),
        ("39", "36"),
        {"seconds": "4 3 5 4 4 6 5 5 4 5 times", "fourths": "4 5 4 5 5 4 5 5 6 7 times"},
    ),
    "C-9": Seeded(
        "thornhollow_waistcoat",
        (
            (
                "40_left_front.md",
                "Work hdc2tog at the end of the row on V Row 1",
                "Work hdc2tog at the beg of the row on V Row 1",
            ),
        ),
        "SP162",
        ALL_10,
        ("same edge",),
    ),
    "C-10": Seeded(
        "thornhollow_waistcoat",
        (
            (
                "60_button_band.md",
                "<hem_rows> row-ends, turn. — <band_sts> sc",
                "<hem_rows> row-ends, turn. — <typed> sc",
            ),
        ),
        "SP135",
        (3,),
        ("198", "199"),
        {"typed": "184 190 199 204 204 206 218 218 224 226 sts"},
    ),
}

COWL = {
    "D-1": Seeded(
        "pebblewold_cowl",
        (
            (
                "20_way_1.md",
                "Work <way_1.total> fsc, join with sl st in first fsc. — <way_1.total> fsc",
                "Work <typed> fsc, join with sl st in first fsc. — <typed> fsc",
            ),
        ),
        "SP136",
        (1,),
        ("101", "1 left", "100", "55.5 cm", "102", "56.5 cm"),
        {"typed": "101 116 216 sts"},
    ),
    "D-2": Seeded(
        "pebblewold_cowl",
        (
            (
                "30_way_2.md",
                "Work <way_2.total> fsc; do not join, work on in a spiral. — <way_2.total> fsc",
                "Work <typed> fsc; do not join, work on in a spiral. — <typed> fsc",
            ),
        ),
        "SP136",
        (2,),
        ("115", "116", "1 left", "117"),
        {"typed": "101 116 217 sts"},
    ),
    "D-3": Seeded(
        "pebblewold_cowl",
        (
            (
                "40_way_3.md",
                "Work <way_3.total> fsc; do not join, work on in a spiral. — <way_3.total> fsc",
                "Work <typed> fsc; do not join, work on in a spiral. — <typed> fsc",
            ),
        ),
        "SP137",
        (3,),
        ("218", "217", "216"),
        {"typed": "102 116 217 sts"},
    ),
    "D-4": Seeded(
        "pebblewold_cowl",
        (
            (
                "40_way_3.md",
                "Rnd 3: [Sc in next ch-sp, ch 1, sk next sc]",
                "Rnd 3: [Ch 1, sk next sc, sc in next ch-sp]",
            ),
        ),
        "SP139",
        ALL_3,
        ("a ch-1 sp", "an sc"),
    ),
    "D-5": Seeded(
        "pebblewold_cowl",
        (("40_way_3.md", "Fasten off. — <way_3.ring> sc", "Fasten off. — <way_3.total> sc"),),
        "SP135",
        ALL_3,
        ("101", "102", "217", "218"),
    ),
}

SEEDED = {**HAT, **TOP, **WAISTCOAT, **COWL}
