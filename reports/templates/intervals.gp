# --- Against the setup compared with -------------------------------------------------------
# The mark is the average over all race days; the bar is where it would lie, 9 times in 10,
# if we knew what we do not.
BODY = 26
GAP = 8
TOP = 36
FOOT = 64
HEIGHT = TOP + ROWS * (HEAD + BODY + GAP) + FOOT
set terminal svg size W,HEIGHT dynamic font FACE background PAPER
set lmargin at screen sx(PAD_PX)
set rmargin at screen 1 - sx(PAD_PX)
set xrange [NET_LOW:NET_HIGH]
set yrange [-1:1]
unset ytics
row_top(i) = TOP + (i - 1) * (HEAD + BODY + GAP)
NET_TICKS = phone ? NET_PHONE_TICKS : NET_WIDE_TICKS
BARE = phone ? NET_PHONE_TICKS_BARE : NET_WIDE_TICKS_BARE
px(s) = PAD_PX + (s - NET_LOW) / (NET_HIGH - NET_LOW) * (W - 2*PAD_PX)
set xtics scale 0 offset 0,0.2 font NOTE_FACE tc rgb INK
set xtics (@BARE)
set multiplot
set label 1 "\342\227\200 faster" at screen sx(PAD_PX), sy(12) left font NOTE_FACE tc rgb INK
set label 2 "slower \342\226\266" at screen 1 - sx(PAD_PX), sy(12) right font NOTE_FACE tc rgb INK
set grid xtics lc rgb GRID lt 1 lw 1
do for [i=1:ROWS] {
    set tmargin at screen sy(row_top(i) + HEAD)
    set bmargin at screen sy(row_top(i) + HEAD + BODY)
    set label 11 name(i) at screen sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) left noenhanced font (BOLDED[i] ? BOLD : FACE) tc rgb INK
    if (phone) {
        set label 12 note(i) at screen sx(PAD_PX), sy(row_top(i) + 2.0*SIZE) left noenhanced font NOTE_FACE tc rgb INK
    } else {
        set label 12 note(i) at screen 1 - sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) right noenhanced font NOTE_FACE tc rgb INK
    }
    set object 1 rectangle from first -MATTERS_S, graph 0 to first MATTERS_S, graph 1 fc rgb GRID fs solid 1 noborder behind
    set arrow 1 from first 0, graph 0 to first 0, graph 1 nohead lc rgb INK lw 1.2
    if (i == ROWS) {
        set xtics (@NET_TICKS)
        set label 21 AXIS_TEXT at screen sx(PAD_PX), sy(HEIGHT - 28) left noenhanced font NOTE_FACE tc rgb INK
        set label 22 MATTERS_TEXT at screen sx(PAD_PX), sy(HEIGHT - 11) left noenhanced font NOTE_FACE tc rgb INK
    }
    plot 'intervals.csv' using ($1==ROW[i] ? $3 : NaN):(0):($4-$3):(0) skip 1 with vectors nohead lw 5 lc rgb colour(STYLE[i]), \
         'intervals.csv' using ($1==ROW[i] ? $2 : NaN):(0) skip 1 with points pt 7 ps 1.5 lc rgb PAPER, \
         'intervals.csv' using ($1==ROW[i] ? $2 : NaN):(0) skip 1 with points pt MARK[i] ps 1.1 lc rgb colour(STYLE[i])
    unset label
    unset arrow
    unset object
}
unset multiplot
