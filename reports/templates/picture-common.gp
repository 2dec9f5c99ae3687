# --- Paper and ink ---------------------------------------------------------------------
# Text is ink, marks are coloured; every mark also has a shape or a dash of its own.
INK    = dark ? '#EEF2F5' : '#14202B'
MUTED  = dark ? '#A9B6C1' : '#55636F'
GRID   = dark ? '#2C3944' : '#E4E9ED'
PAPER  = dark ? '#10181F' : '#FFFFFF'
array COLOUR[5] = ['#0A62C4', '#C44E00', '#1FA187', '#5E3370', '#6B7883']
array BRIGHT[5] = ['#6DB0FF', '#FF9957', '#4CCFB1', '#C9A0E6', '#A9B6C1']
array DASH[5] = [1, 2, 4, 3, 5]
colour(i) = dark ? BRIGHT[i] : COLOUR[i]
set dashtype 1 solid
set dashtype 2 (10, 4)
set dashtype 3 (2, 3)
set dashtype 4 (10, 3, 2, 3)
set dashtype 5 (4, 4)

W = phone ? PHONE_PX : WIDE_PX
SIZE = phone ? PHONE_TYPE_PX : WIDE_TYPE_PX
SMALL = SIZE - 1
FACE = sprintf('Inter,%d', SIZE)
BOLD = sprintf('Inter Bold,%d', SIZE)
NOTE_FACE = sprintf('Inter,%d', SMALL)
HEAD = phone ? 2.9*SIZE : 1.9*SIZE      # height of a row's caption
set encoding utf8
set datafile separator ','
unset key
unset colorbox
set border 0
# Places in pixels from the left and from the top; HEIGHT is set by each picture.
sx(px) = px / (1.0 * W)
sy(px) = 1.0 - px / (1.0 * HEIGHT)
name(i) = phone ? PHONE_NAME[i] : WIDE_NAME[i]
note(i) = phone ? PHONE_NOTE[i] : WIDE_NOTE[i]
