# Leaves of what the leak sanitizer reports what is not GTK 4.8's own. Programs of thirty lines with GTK and nothing of ours, that show a file dialog, hide it and
# end, take a dropped file, or print into a file when something was opened before, lose each of these but the last and the names joined, in stacks of the same
# calls. GTK's and GLib's inner functions have no names in their libraries, so that leaks.supp cannot name them: they are told by the calls around them. A stack
# with a call of ours beneath the program's start is never one of them, but for the first.
BEGIN { RS = ""; ORS = "\n\n" }

# application.c runs the main loop, which is beneath all that happens.
function passes_through_us(stack,    lines, n, i) {
  n = split(stack, lines, "\n")
  for (i = 1; i <= n; i++)
    if (lines[i] ~ /\/src\/[a-z]+\/[a-z-]+\.[ch]:/ && lines[i] !~ /\/workbench\/application\.c:/)
      return 1
  return 0
}

# The folder that a file dialog is told to begin in: GTK loses it whoever tells it.
function is_begun_in(stack) {
  return stack ~ / in g_object_new [^\n]*\n[^\n]*libgio-2\.0\.so[^\n]*\n[^\n]* in choose_folder_cb /
}

function is_of_gtk(stack) {
  if (is_begun_in(stack))
    return 1
  if (passes_through_us(stack))
    return 0
  return stack ~ /libcloudproviders\.so/ ||              # who offers places in the dialog's side bar: names, places, objects on the bus
    stack ~ / in gtk_tree_view_get_visible_range / ||    # two paths into its list of files, each time it has room
    stack ~ / in g_list_prepend [^\n]*\n[^\n]*libgtk-4\.so[^\n]*\n[^\n]*libgio-2\.0\.so/ ||          # an element of a list when a folder was read
    stack ~ / in g_object_new [^\n]*\n([^\n]*libgtk-4\.so[^\n]*\n)+[^\n]* in gdk_drop_read_value_async / || # the stream that a dropped file's name came through
    stack ~ /libprintbackend-file\.so/ ||                # the stream a file was printed through
    stack ~ / in g_date_time_new_now_utc [^\n]*\n[^\n]*libgtk-4\.so/ || # the time at which it looked through the files opened before
    stack ~ / in g_strconcat [^\n]*\n[^\n]*libgtk-4\.so/ || # names joined for its list
    stack ~ / in g_object_new [^\n]*\n([^\n]*libgio-2\.0\.so[^\n]*\n)+([^\n]*libglib-2\.0\.so[^\n]*\n)+[^\n]* in start_thread / || # what GLib's thread read of files
    stack ~ /libglib-2\.0\.so[^\n]*\n[^\n]* in call_init / # GLib's table of names when it grows: the old one stays, for whoever reads it just then
}

/LeakSanitizer: detected memory leaks/ { head = $0; next }
/^Direct leak/ { if (!is_of_gtk($0)) direct = direct $0 ORS; next }
/^Indirect leak/ { indirect = indirect $0 ORS; next } # hangs on one of the others
/^SUMMARY: AddressSanitizer: [0-9]+ byte/ { summary = $0; next }
{ print }
END { if (direct != "") printf "%s%s%s%s\n", head ORS, direct, indirect, summary }
