# --- Fifty race days per setup -----------------------------------------------------------
# One dot stands for 2 race days in 100 (quantile dot plot: Fernandes et al. 2018, CHI).
# Full: goal met. Open: later than the goal. Cross: no finish.
DOT = phone ? PHONE_DOT_PX : WIDE_DOT_PX
STACK = phone ? PHONE_STACK : WIDE_STACK
BODY = STACK * DOT + 4
GAP = 10
#include picture-rows.gp
FILE = phone ? 'dots-phone.csv' : 'dots.csv'
set yrange [0:BODY/(1.0*DOT)]
PX = 4.5     # half the width of a mark of size 1, in pixels
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
    set arrow 3 from first LATER_FROM, graph 0 to first X_END, graph 0 nohead back lc rgb MUTED lw 1
    if (i == ROWS) {
        set xtics (@TICKS)
        set label 21 'finish time (h:mm)' at screen sx(PAD_PX + 0.5*(AXIS_HIGH-AXIS_LOW)/SCALE), sy(HEIGHT - 10) center font NOTE_FACE tc rgb INK
        set label 22 'later, or' at screen 1 - sx(PAD_PX + 0.375*LATER_PX), sy(HEIGHT - FOOT + 18) center font NOTE_FACE tc rgb INK
        set label 23 'no finish' at screen 1 - sx(PAD_PX + 0.375*LATER_PX), sy(HEIGHT - FOOT + 34) center font NOTE_FACE tc rgb INK
    }
    plot FILE using ($1==ROW[i] && $5==0 ? $3 : NaN):($4-0.5) skip 1 with points pt 7 ps 0.42*DOT/PX lc rgb colour(STYLE[i]), \
         FILE using ($1==ROW[i] && $5==1 ? $3 : NaN):($4-0.5) skip 1 with points pt 6 ps 0.38*DOT/PX lw 1.5 lc rgb colour(STYLE[i]), \
         FILE using ($1==ROW[i] && $5==2 ? $3 : NaN):($4-0.5) skip 1 with points pt 2 ps 0.33*DOT/PX lw 2 lc rgb colour(STYLE[i])
    unset label
    unset arrow
}
unset multiplot
