"""The cautions that the papers carry: short, and they defer to those who may do what is not ours.

Sources: HSE INDG248 (solder fume), OSHA 29 CFR 1910.1025 (lead), HSE INDG247 (electrical safety
for entertainers), EPA (capacitors that may contain PCBs); the rest is common practice.
"""

from __future__ import annotations

CAUTIONS: tuple[tuple[str, str], ...] = (
    (
        "Solder and fume",
        "Flux fume irritates and sensitises, and solder may hold lead: air the room, keep your "
        "face out of the fume, do not eat or drink at the bench, wash your hands afterwards.",
    ),
    (
        "Eyes and iron",
        "Wear eye protection: solder spits and clipped leads fly. The iron burns and lights "
        "things; put it in its stand.",
    ),
    (
        "Mains and amplifiers",
        "Never open, meter or solder inside a mains or valve amplifier by these papers: it holds "
        "hundreds of volts after it is switched off. That is work for licensed people.",
    ),
    (
        "Strings and ground",
        "The strings are joined to the amplifier's ground. With a faulty amplifier or outlet, "
        "touching strings and a microphone can kill. Use tested, earthed equipment behind a "
        "residual-current device, and have mains wiring checked by licensed people under local "
        "codes.",
    ),
    (
        "Old capacitors",
        "Oil-filled or unmarked old capacitors may contain PCBs: do not open, grind or burn them; "
        "dispose of them by local rules.",
    ),
    (
        "Batteries",
        "Take the battery out before you solder. Never short one, never charge one that is not "
        "made for it.",
    ),
)
