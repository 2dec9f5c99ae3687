# --- The chance of being slower than ------------------------------------------------------
# On a scale of odds, because setups differ most on the days that go wrong. A curve that
# becomes level has reached the days without a finish.
KEY_LINE = 1.7 * SIZE
TOP = 10 + ROWS * KEY_LINE * (phone ? 1.9 : 1)
BODY = phone ? 250 : 300
FOOT = 50
HEIGHT = TOP + 26 + BODY + FOOT
LEFT = 50
set terminal svg size W,HEIGHT dynamic font FACE background PAPER
set multiplot
set lmargin at screen sx(LEFT)
set rmargin at screen 1 - sx(PAD_PX)
set tmargin at screen sy(TOP + 26)
set bmargin at screen sy(TOP + 26 + BODY)
key_y(i) = TOP - 6 - (ROWS - i + 0.5) * KEY_LINE * (phone ? 1.9 : 1)
do for [i=1:ROWS] {
    set arrow 100+i from screen sx(PAD_PX), screen sy(key_y(i)) to screen sx(PAD_PX+34), screen sy(key_y(i)) nohead lw 2 dt DASH[STYLE[i]] lc rgb colour(STYLE[i])
    set label 100+i name(i) at screen sx(PAD_PX+44), sy(key_y(i)) left noenhanced font (BOLDED[i] ? BOLD : FACE) tc rgb INK
    if (phone) {
        set label 200+i note(i) at screen sx(PAD_PX+44), sy(key_y(i) + 1.3*SIZE) left noenhanced font NOTE_FACE tc rgb INK
    } else {
        set label 200+i note(i) at screen 1 - sx(PAD_PX), sy(key_y(i)) right noenhanced font NOTE_FACE tc rgb INK
    }
    set label 300+i '' at screen sx(PAD_PX+17), sy(key_y(i)) point pt MARK[i] ps 0.8 lc rgb colour(STYLE[i])
}
set xrange [SLOW_LOW:SLOW_HIGH]
set logscale y
set yrange [0.3:60]
SLOW_TICKS = phone ? SLOW_PHONE_TICKS : SLOW_WIDE_TICKS
set xtics scale 0 offset 0,0.3 font NOTE_FACE tc rgb INK
set xtics (@SLOW_TICKS)
set ytics scale 0 font NOTE_FACE tc rgb INK
set ytics ('50' 50, '20' 20, '10' 10, '5' 5, '2' 2, '1' 1, '0.5' 0.5)
set grid xtics ytics lc rgb GRID lt 1 lw 1
set label 1 'race days in 100 that are slower' at screen sx(PAD_PX), sy(TOP + 12) left font NOTE_FACE tc rgb INK
set label 2 'finish time (h:mm)' at screen 0.5 + 0.5*(sx(LEFT)-sx(PAD_PX)), sy(HEIGHT - 10) center font NOTE_FACE tc rgb INK
if (GOAL_SIDE == 0 && GOAL_S >= SLOW_LOW && GOAL_S <= SLOW_HIGH) {
    set arrow 1 from first GOAL_S, graph 0 to first GOAL_S, graph 1 nohead front dt 2 lc rgb INK lw 1.2
    near_end = (GOAL_S - SLOW_LOW) > 0.7 * (SLOW_HIGH - SLOW_LOW)
    if (near_end) {
        set label 3 GOAL_TEXT at first GOAL_S, graph 0.04 right offset -0.6,0 noenhanced font BOLD tc rgb INK front
    } else {
        set label 3 GOAL_TEXT at first GOAL_S, graph 0.04 left offset 0.6,0 noenhanced font BOLD tc rgb INK front
    }
}
set clip two
plot for [i=1:ROWS] 'slower-than.csv' using ($1==ROW[i] ? $2 : NaN):3 skip 1 with lines lw 2 dt DASH[STYLE[i]] lc rgb colour(STYLE[i]), \
     for [i=1:ROWS] 'slower-than.csv' using ($1==ROW[i] && $4==i ? $2 : NaN):3 skip 1 with points pt MARK[i] ps 0.8 lc rgb colour(STYLE[i])
unset multiplot
