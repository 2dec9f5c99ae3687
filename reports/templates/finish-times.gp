# --- How finish times are spread ---------------------------------------------------------
# Each curve with its typical day (half of the race days are faster); the part later than
# the goal is filled; the dashed curve is the setup compared against.
BODY = phone ? 62 : 74
GAP = 10
LATER_PX = 0
#include picture-rows.gp
set yrange [0:1.04*DENSITY_MOST]
set multiplot
do for [i=1:ROWS] {
    set tmargin at screen sy(row_top(i) + HEAD)
    set bmargin at screen sy(row_top(i) + HEAD + BODY)
    set label 11 name(i) at screen sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) left noenhanced font (BOLDED[i] ? BOLD : FACE) tc rgb INK
    if (phone) {
        set label 12 note(i) at screen sx(PAD_PX), sy(row_top(i) + 2.0*SIZE) left noenhanced font NOTE_FACE tc rgb INK
    } else {
        set label 12 note(i) at screen 1 - sx(PAD_PX), sy(row_top(i) + 0.7*SIZE) right noenhanced font NOTE_FACE tc rgb INK
    }
    if (GOAL_SIDE == 0) { set arrow 1 from first GOAL_S, graph 0 to first GOAL_S, graph 1 nohead front dt 2 lc rgb INK lw 1.2 }
    set arrow 2 from first AXIS_LOW, graph 0 to first AXIS_HIGH, graph 0 nohead back lc rgb MUTED lw 1
    if (i == ROWS) {
        set xtics (@TICKS)
        set label 21 'finish time (h:mm)' at screen sx(PAD_PX + 0.5*(AXIS_HIGH-AXIS_LOW)/SCALE), sy(HEIGHT - 10) center font NOTE_FACE tc rgb INK
    }
    if (TYPICAL[i] > 0 && TYPICAL[i] < AXIS_HIGH) {
        set arrow 4 from first TYPICAL[i], graph 0 to first TYPICAL[i], first PEAK[i] nohead front lc rgb colour(STYLE[i]) lw 2.5
        set label 31 '' at first TYPICAL[i], graph 0 point pt MARK[i] ps 0.9 lc rgb colour(STYLE[i]) front
    }
    plot 'curves.csv' using ($1==ROW[i] && $2>=FILL_FROM ? $2 : NaN):3 skip 1 with filledcurves y1=0 fc rgb colour(STYLE[i]) fs solid 0.18 noborder, \
         'curves.csv' using ($1==AGAINST && ROW[i]!=AGAINST ? $2 : NaN):3 skip 1 with lines lw 1.2 dt 3 lc rgb MUTED, \
         'curves.csv' using ($1==ROW[i] ? $2 : NaN):3 skip 1 with lines lw 2 dt DASH[STYLE[i]] lc rgb colour(STYLE[i])
    unset label
    unset arrow
}
unset multiplot
