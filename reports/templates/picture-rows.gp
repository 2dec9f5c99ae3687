# --- Rows on one axis of finish times ----------------------------------------------------
# The axis ends at AXIS_HIGH; days later than that, or without a finish, stand right of it.
if (!exists('LATER_PX')) LATER_PX = phone ? PHONE_LATER_PX : WIDE_LATER_PX
SCALE = (AXIS_HIGH - AXIS_LOW) / (W - 2.0*PAD_PX - LATER_PX)     # seconds per pixel
X_END = AXIS_HIGH + LATER_PX * SCALE
LATER_FROM = AXIS_HIGH + 0.25 * LATER_PX * SCALE
TOP = (GOAL_SIDE == -9 ? 8 : 30)
FOOT = 54
HEIGHT = TOP + ROWS * (HEAD + BODY + GAP) + FOOT
TICKS = phone ? PHONE_TICKS : WIDE_TICKS
BARE = phone ? PHONE_TICKS_BARE : WIDE_TICKS_BARE
set terminal svg size W,HEIGHT dynamic font FACE background PAPER
set lmargin at screen sx(PAD_PX)
set rmargin at screen 1 - sx(PAD_PX)
set xrange [AXIS_LOW:X_END]
set xtics scale 0 offset 0,0.2 font NOTE_FACE tc rgb INK
set xtics (@BARE)
set grid xtics lc rgb GRID lt 1 lw 1
unset ytics
row_top(i) = TOP + (i - 1) * (HEAD + BODY + GAP)

# The goal: a line through every row; its name once, at the top.
goal_px = PAD_PX + (GOAL_S - AXIS_LOW) / SCALE
if (GOAL_SIDE == 0) {
    if (goal_px < PAD_PX + 60) { set label 1 GOAL_TEXT at screen sx(goal_px), sy(12) left noenhanced font BOLD tc rgb INK }
    if (goal_px > W - PAD_PX - 60) { set label 1 GOAL_TEXT at screen sx(goal_px), sy(12) right noenhanced font BOLD tc rgb INK }
    if (goal_px >= PAD_PX + 60 && goal_px <= W - PAD_PX - 60) { set label 1 GOAL_TEXT at screen sx(goal_px), sy(12) center noenhanced font BOLD tc rgb INK }
}
if (GOAL_SIDE == -1) { set label 1 "\342\227\200 ".GOAL_TEXT.', faster than shown' at screen sx(PAD_PX), sy(12) left noenhanced font FACE tc rgb INK }
if (GOAL_SIDE == 1) { set label 1 GOAL_TEXT.", slower than shown \342\226\266" at screen 1 - sx(PAD_PX), sy(12) right noenhanced font FACE tc rgb INK }

