/* A sentence across the top of the window with a few answers to choose from. It stays until one is chosen. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_NOTICE_BAR (hw_notice_bar_get_type ())
G_DECLARE_FINAL_TYPE (HwNoticeBar, hw_notice_bar, HW, NOTICE_BAR, GtkWidget)

typedef void (*HwNoticeChosen) (gpointer user_data);

typedef struct
{
  const char *label;     /* translated */
  HwNoticeChosen chosen; /* NULL: the bar only goes away */
  gboolean suggested;
} HwNoticeAnswer;

GtkWidget *
hw_notice_bar_new (void);
/* Takes the place of what it asked before. answers: ended by one without a label; user_data must outlive the bar. */
void
hw_notice_bar_ask (HwNoticeBar *bar, const char *sentence, const HwNoticeAnswer *answers, gpointer user_data);
void
hw_notice_bar_withdraw (HwNoticeBar *bar);

G_END_DECLS
