/* convert.c - see convert.h. Input and output go through files without a name, so that neither program waits for the other.
 * SPDX-License-Identifier: MIT */
#include "convert.h"

#include <errno.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "work.h"

#define CONVERT_PROGRAM "kernline-pages"
#define CONVERT_PATH    4096

extern char **environ;

/* Beside the running program, where it is built, else in the folder of programs for programs beside its own. */
static bool convert_find(char path[CONVERT_PATH])
{
    static const char *const places[] = {"", "../libexec/"};
    char own[CONVERT_PATH];
    const ssize_t length = readlink("/proc/self/exe", own, sizeof own - 1);
    own[length > 0 ? length : 0] = '\0';
    char *slash = strrchr(own, '/');
    const size_t folder = slash ? (size_t)(slash - own) + 1 : 0;
    for (int i = 0; i < 2; i++) {
        const int written =
            snprintf(path, CONVERT_PATH, "%.*s%s%s", (int)folder, own, places[i], CONVERT_PROGRAM);
        if (written > 0 && written < CONVERT_PATH && access(path, X_OK) == 0) {
            return true;
        }
    }
    work_complain("PNG and PDF are made by the program " CONVERT_PROGRAM ", which is not there");
    return false;
}

static bool convert_give(FILE *file, const convert_page *pages, kl_index count)
{
    for (kl_index i = 0; i < count; i++) {
        const char *name = pages[i].outline;
        fprintf(file, "%zu%s%s\n", strlen(pages[i].svg), name ? " " : "", name ? name : "");
        fputs(pages[i].svg, file);
    }
    const bool is_whole = fflush(file) == 0 && !ferror(file) && fseek(file, 0, SEEK_SET) == 0;
    if (!is_whole) {
        work_complain("there is no room for the pages in the folder of temporary files");
    }
    return is_whole;
}

/* Run with these as standard input and output. @return whether it did its work. */
static bool convert_run(const char *path, convert_format format, char *title, FILE *in, FILE *out)
{
    char program[] = CONVERT_PROGRAM;
    char pdf[] = "pdf";
    char png[] = "png";
    char *arguments[] = {program, format == CONVERT_PDF ? pdf : png, NULL, NULL};
    arguments[2] = format == CONVERT_PDF ? title : NULL;
    posix_spawn_file_actions_t actions;
    pid_t child;
    if (posix_spawn_file_actions_init(&actions) != 0) {
        work_complain("%s cannot be started", path);
        return false;
    }
    int status = 0;
    const bool started =
        posix_spawn_file_actions_adddup2(&actions, fileno(in), STDIN_FILENO) == 0 &&
        posix_spawn_file_actions_adddup2(&actions, fileno(out), STDOUT_FILENO) == 0 &&
        posix_spawn(&child, path, &actions, NULL, arguments, environ) == 0;
    posix_spawn_file_actions_destroy(&actions);
    if (!started) {
        work_complain("%s cannot be started", path);
        return false;
    }
    while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    const bool is_well = WIFEXITED(status) && WEXITSTATUS(status) == 0;
    if (!is_well) {
        work_complain(CONVERT_PROGRAM " has not made the pages");
    }
    return is_well;
}

static kl_status convert_take(FILE *file, char **out, size_t *length)
{
    if (fseek(file, 0, SEEK_END) != 0) {
        return KL_FILE_TROUBLE;
    }
    const long size = ftell(file);
    if (size <= 0 || fseek(file, 0, SEEK_SET) != 0) {
        return KL_FILE_TROUBLE;
    }
    *out = malloc((size_t)size);
    if (!*out) {
        return KL_NO_MEMORY;
    }
    *length = (size_t)size;
    return fread(*out, 1, *length, file) == *length ? KL_OK : KL_FILE_TROUBLE;
}

kl_status convert_pages(convert_format format,
                        const char *title,
                        const convert_page *pages,
                        kl_index count,
                        char **out,
                        size_t *length)
{
    *out = NULL;
    char path[CONVERT_PATH];
    if (!convert_find(path)) {
        return KL_FILE_TROUBLE;
    }
    char *kept = strdup(title); /* the other program gets what it may write in */
    if (!kept) {
        return KL_NO_MEMORY;
    }
    FILE *in = tmpfile();
    FILE *made = tmpfile();
    kl_status status = KL_FILE_TROUBLE;
    if (!in || !made) {
        work_complain("no temporary file can be made: %s", strerror(errno));
    } else if (convert_give(in, pages, count) && convert_run(path, format, kept, in, made)) {
        status = convert_take(made, out, length);
        if (status == KL_FILE_TROUBLE) {
            work_complain("the pages that were made cannot be read back");
        }
    }
    if (in) {
        fclose(in);
    }
    if (made) {
        fclose(made);
    }
    free(kept);
    return status;
}

void convert_free(char *bytes)
{
    free(bytes);
}
