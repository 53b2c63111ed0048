/* What the program takes at most, each said once, with its unit and why it is so much and not more. Reasons are of two kinds: what a person could ever
 * mean, with much to spare, and what fits memory and time. A limit that is passed is answered by one sentence, at the place where it is passed: a file
 * that holds more is not opened, an edit that would make more is taken back (scene-limits.h). DEVELOPERS.md lists them with their tests. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A scene */
#define HW_MOST_MOTIFS 10000          /* of a scene: planned within memory and time; see DEVELOPERS.md */
#define HW_MOST_HOOPS 200             /* of a scene: nobody has as many */
#define HW_MOST_PARTS 100             /* of a scene */
#define HW_MOST_PHOTOS 200            /* of a scene's stack */
#define HW_MOST_PHOTO_POINTS 1000     /* known points of one photo */
#define HW_MOST_PALETTE_THREADS 20000 /* at hand: the largest shops list a few thousand */
#define HW_MOST_APART 100000          /* pairs that must not share a hooping */
#define HW_MOST_STITCHES 5000000      /* of a motif: days at the machine, and 60 MB of needle points */
#define HW_MOST_OUTLINE_POINTS 50000  /* of a motif or an edge line, all rings together */
#define HW_MOST_OUTLINE_RINGS 1000    /* of a motif */
#define HW_LARGEST_MM 100000.0        /* no length or place of a scene is over 100 m */
#define HW_SMALLEST_SCALE 0.001       /* of a motif */
#define HW_LARGEST_SCALE 1000.0       /* likewise */
#define HW_GREATEST_ANGLE 36000       /* degrees either way: a hundred turns; more loses the fraction */
#define HW_LONGEST_TEXT 100000        /* letters of a name or a note: some fifty pages */

/* What it uses up. Nobody winds, stacks or sews as much; what a person means is a thousandth of it. */
#define HW_MOST_SHEETS 20         /* of stabiliser, one over the other */
#define HW_LARGEST_THICKNESS 20.0 /* mm of a cloth or a sheet: no needle goes through more */
#define HW_LARGEST_REACH 1000.0   /* mm that a sheet or a cloth is wider than it must be; a bobbin's sizes */
#define HW_SMALLEST_SUPPLY 0.1    /* mm of a roll's width, a bobbin's sizes: less is none */
#define HW_MOST_BOBBIN_METRES 100000.0 /* on one bobbin */
#define HW_MOST_NEEDLE_STITCHES 1e9    /* by one needle */
#define HW_MOST_NEEDLE_HOURS 10000.0   /* likewise: over a year of days and nights */
#define HW_MOST_PACKING 0.91           /* threads side by side as close as can be: pi / (2 sqrt 3) = 0.907 */

/* The work on it */
#define HW_MOST_PIN_MARKS 26        /* of one hooping: A to Z */
#define HW_MOST_HELD_MARKS 100000   /* of a scene */
#define HW_MOST_READINGS 1000       /* of one hooping */
#define HW_MOST_THREADS_DONE 100000 /* of one hooping */
#define HW_MOST_LOG_LINES 100000    /* of a scene; when it is full the oldest line goes */
#define HW_MOST_UNDO_STEPS 500      /* the oldest go: nobody steps back farther */
#define HW_MOST_EARLIER_STATES 10   /* of a saved scene; the oldest goes */

/* Files: what is larger is not read */
#define HW_LARGEST_SCENE_FILE ((gsize)64 << 20)    /* bytes; with a tree built of it some 500 MB of memory */
#define HW_LARGEST_PICTURE_FILE ((gsize)512 << 20) /* bytes of a photo, a scan, a drawing, a PDF */
#define HW_LARGEST_DRAWING_TEXT                                                                              \
  ((gsize)64 << 20) /* bytes of an SVG, unpacked: its reader keeps them all as a tree */
#define HW_LARGEST_NEEDLE_FILE ((gsize)256 << 20) /* bytes: HW_MOST_STITCHES rows of some 50 */
#define HW_LARGEST_PALETTE_FILE ((gsize)16 << 20) /* bytes */
#define HW_LARGEST_LIST_FILE ((gsize)1 << 20)     /* bytes of measured readings or of known points */
#define HW_MOST_NEEDLE_THREADS 1000               /* of one needle list */
#define HW_MOST_MEASURED 1000                     /* readings or distances in one file */
#define HW_MOST_LISTED_POINTS 200                 /* points, lines, and points of a line in one file */

/* Files that are remembered or listed */
#define HW_MOST_CHOSEN_FILES 5000 /* files outside the scenes' folders that may be read; the oldest go */
#define HW_LARGEST_CHOSEN_LIST ((gsize)16 << 20) /* bytes: so many of the longest paths there are */
#define HW_MOST_LIBRARY_FILES 5000 /* of the folder of motifs that is shown: a wall of more is no help */

/* A drawing or a scan that is traced: what is more than anybody can look after is drawn more coarsely */
#define HW_MOST_TRACED_RINGS 2000u     /* the largest are kept */
#define HW_MOST_TRACED_POINTS 1500000u /* while walking; beyond it the mask is noise at this fineness */
#define HW_MOST_DRAWN_POINTS 20000u    /* of the outline */

/* What is typed in the window beyond these is not taken; a file may hold more, and that is shown as it is */
#define HW_SMALLEST_CLOTH_TYPED 20.0   /* mm along a side: less holds no hoop */
#define HW_LARGEST_CLOTH_TYPED 10000.0 /* mm: larger than any cloth in one piece */
#define HW_SMALLEST_HOOP_TYPED 10.0    /* mm of a sewing field, along a side */
#define HW_LARGEST_HOOP_TYPED 2000.0   /* mm of a sewing field or a frame: no arm reaches farther */
#define HW_LARGEST_OWN_HOOP 10000.0    /* mm of a hoop remembered in the settings, where anybody may write */

/* Pictures and pages */
#define HW_MOST_PICTURE_PIXELS 200000000u /* 200 megapixels: 800 MB while it is turned upright */
#define HW_LARGEST_PICTURE_SIDE 60000u    /* pixels */
#define HW_LARGEST_PAGE_MM 10000.0        /* of artwork, along a side: larger than any cloth in one piece */
#define HW_MOST_PLAN_PICTURE_PIXELS 64000000.0 /* 64 megapixels: 256 MB while it is painted */
#define HW_LARGEST_PLAN_PICTURE_SIDE 30000.0   /* pixels: cairo ends at 32767 */
#define HW_GREATEST_DPI 2400.0                 /* that a command paints: finer than any printer */
#define HW_MOST_PAGES 3000                     /* of one print: six reams */

G_END_DECLS
