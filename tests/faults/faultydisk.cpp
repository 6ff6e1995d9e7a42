// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
//
// Put in front of the C library (LD_PRELOAD): the disk under one folder fails at the n-th write,
// sync, truncation or renaming, once or from then on.
//   RAMPLIGHT_FAULT_UNDER   the folder; nothing else fails or counts
//   RAMPLIGHT_FAULT_AT      n, counted from 1; without it nothing fails
//   RAMPLIGHT_FAULT_ERRNO   what the call says
//   RAMPLIGHT_FAULT_STAYS   set: every call from then on fails, too
//   RAMPLIGHT_FAULT_KILLS   set: the program is killed instead, before that call
//   RAMPLIGHT_NO_EXCHANGE   set: two names cannot be exchanged, as on some file systems
//   RAMPLIGHT_DISK_FORGETS  n, counted from 1: the n-th file that the kernel is asked to read from
//                           the disk from now on has nothing but zeros there, as on a stick that
//                           is smaller than it says
//   RAMPLIGHT_FAULT_TALLY   file that the number of calls goes into when the program ends
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/sendfile.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace {

std::atomic<long> calls = 0;

const char* setting(const char* name)
{
    const char* value = std::getenv(name);
    return value == nullptr ? "" : value;
}

template <class Function>
Function next(const char* name)
{
    // dlsym answers with an object pointer; POSIX promises that it is the function.
    return reinterpret_cast<Function>(::dlsym(RTLD_NEXT, name)); // NOLINT
}

bool liesUnder(const char* path)
{
    static const char* folder = setting("RAMPLIGHT_FAULT_UNDER");
    static const std::size_t length = std::strlen(folder);
    return length > 0 && std::strncmp(path, folder, length) == 0;
}

bool isOurs(int file)
{
    char link[64];
    char path[4096];
    std::snprintf(link, sizeof link, "/proc/self/fd/%d", file);
    const ssize_t size = ::readlink(link, path, sizeof path - 1);
    if (size <= 0)
        return false;
    path[size] = 0;
    return liesUnder(path);
}

/// A path that may start at an open folder.
bool liesUnder(int folder, const char* path)
{
    return path[0] == '/' || folder == AT_FDCWD ? liesUnder(path) : isOurs(folder);
}

/// Whether this call fails; sets errno then.
bool fails()
{
    static const long at = std::strtol(setting("RAMPLIGHT_FAULT_AT"), nullptr, 10);
    static const int code =
        static_cast<int>(std::strtol(setting("RAMPLIGHT_FAULT_ERRNO"), nullptr, 10));
    static const bool stays = std::getenv("RAMPLIGHT_FAULT_STAYS") != nullptr;
    const long call = ++calls;
    if (at == 0 || call < at || (call > at && !stays))
        return false;
    if (std::getenv("RAMPLIGHT_FAULT_KILLS") != nullptr)
        std::raise(SIGKILL);
    errno = code;
    return true;
}

/// Everything in it, whoever has it open and how.
void turnToZeros(int file, off_t size)
{
    char link[64];
    std::snprintf(link, sizeof link, "/proc/self/fd/%d", file);
    const int whole = ::open(link, O_WRONLY | O_CLOEXEC);
    if (whole < 0)
        std::abort();
    static const auto real = next<decltype(&pwrite)>("pwrite");
    const char zeros[4096] = {};
    for (off_t at = 0; at < size; at += static_cast<off_t>(sizeof zeros)) {
        const auto rest = static_cast<std::size_t>(size - at);
        if (real(whole, zeros, rest < sizeof zeros ? rest : sizeof zeros, at) < 0)
            std::abort();
    }
    ::close(whole);
}

/// What the disk has of it is read from now on.
void forget(int file)
{
    static const long at = std::strtol(setting("RAMPLIGHT_DISK_FORGETS"), nullptr, 10);
    static std::atomic<long> files = 0;
    struct stat facts
    {
    };
    if (at > 0 && isOurs(file) && ::fstat(file, &facts) == 0 && S_ISREG(facts.st_mode) &&
        ++files == at)
        turnToZeros(file, facts.st_size);
}

struct Tally
{
    ~Tally()
    {
        if (std::FILE* file = std::fopen(setting("RAMPLIGHT_FAULT_TALLY"), "w")) {
            std::fprintf(file, "%ld", calls.load());
            std::fclose(file);
        }
    }
} tally;

} // namespace

extern "C" {

ssize_t write(int file, const void* bytes, size_t count)
{
    static const auto real = next<decltype(&write)>("write");
    return isOurs(file) && fails() ? -1 : real(file, bytes, count);
}

ssize_t pwrite(int file, const void* bytes, size_t count, off_t at)
{
    static const auto real = next<decltype(&pwrite)>("pwrite");
    return isOurs(file) && fails() ? -1 : real(file, bytes, count, at);
}

ssize_t pwrite64(int file, const void* bytes, size_t count, off64_t at)
{
    static const auto real = next<decltype(&pwrite64)>("pwrite64");
    return isOurs(file) && fails() ? -1 : real(file, bytes, count, at);
}

ssize_t writev(int file, const iovec* parts, int count)
{
    static const auto real = next<decltype(&writev)>("writev");
    return isOurs(file) && fails() ? -1 : real(file, parts, count);
}

ssize_t pwritev(int file, const iovec* parts, int count, off_t at)
{
    static const auto real = next<decltype(&pwritev)>("pwritev");
    return isOurs(file) && fails() ? -1 : real(file, parts, count, at);
}

ssize_t pwritev64(int file, const iovec* parts, int count, off64_t at)
{
    static const auto real = next<decltype(&pwritev64)>("pwritev64");
    return isOurs(file) && fails() ? -1 : real(file, parts, count, at);
}

ssize_t pwritev2(int file, const iovec* parts, int count, off_t at, int flags)
{
    static const auto real = next<decltype(&pwritev2)>("pwritev2");
    return isOurs(file) && fails() ? -1 : real(file, parts, count, at, flags);
}

ssize_t pwritev64v2(int file, const iovec* parts, int count, off64_t at, int flags)
{
    static const auto real = next<decltype(&pwritev64v2)>("pwritev64v2");
    return isOurs(file) && fails() ? -1 : real(file, parts, count, at, flags);
}

int posix_fadvise(int file, off_t at, off_t count, int advice) noexcept
{
    static const auto real = next<int (*)(int, off_t, off_t, int)>("posix_fadvise");
    if (advice == POSIX_FADV_DONTNEED)
        forget(file);
    return real(file, at, count, advice);
}

int fsync(int file)
{
    static const auto real = next<decltype(&fsync)>("fsync");
    return isOurs(file) && fails() ? -1 : real(file);
}

int fdatasync(int file)
{
    static const auto real = next<decltype(&fdatasync)>("fdatasync");
    return isOurs(file) && fails() ? -1 : real(file);
}

int ftruncate(int file, off_t size)
{
    static const auto real = next<decltype(&ftruncate)>("ftruncate");
    return isOurs(file) && fails() ? -1 : real(file, size);
}

int ftruncate64(int file, off64_t size)
{
    static const auto real = next<decltype(&ftruncate64)>("ftruncate64");
    return isOurs(file) && fails() ? -1 : real(file, size);
}

int rename(const char* from, const char* to) noexcept
{
    static const auto real = next<int (*)(const char*, const char*)>("rename");
    return liesUnder(to) && fails() ? -1 : real(from, to);
}

int renameat(int fromFolder, const char* from, int toFolder, const char* to) noexcept
{
    static const auto real = next<int (*)(int, const char*, int, const char*)>("renameat");
    return liesUnder(toFolder, to) && fails() ? -1 : real(fromFolder, from, toFolder, to);
}

int renameat2(int fromFolder, const char* from, int toFolder, const char* to,
              unsigned int how) noexcept
{
    static const auto real =
        next<int (*)(int, const char*, int, const char*, unsigned int)>("renameat2");
    if ((how & RENAME_EXCHANGE) != 0 && std::getenv("RAMPLIGHT_NO_EXCHANGE") != nullptr) {
        errno = EINVAL;
        return -1;
    }
    return liesUnder(toFolder, to) && fails() ? -1 : real(fromFolder, from, toFolder, to, how);
}

// Between files, as copies are made.
ssize_t sendfile(int to, int from, off_t* at, size_t count) noexcept
{
    static const auto real = next<ssize_t (*)(int, int, off_t*, size_t)>("sendfile");
    return isOurs(to) && fails() ? -1 : real(to, from, at, count);
}

ssize_t sendfile64(int to, int from, off64_t* at, size_t count) noexcept
{
    static const auto real = next<ssize_t (*)(int, int, off64_t*, size_t)>("sendfile64");
    return isOurs(to) && fails() ? -1 : real(to, from, at, count);
}

ssize_t copy_file_range(int from, off64_t* at, int to, off64_t* toAt, size_t count,
                        unsigned int how)
{
    static const auto real =
        next<ssize_t (*)(int, off64_t*, int, off64_t*, size_t, unsigned int)>("copy_file_range");
    return isOurs(to) && fails() ? -1 : real(from, at, to, toAt, count, how);
}

// A second name for a file that is whole by then.
int link(const char* from, const char* to) noexcept
{
    static const auto real = next<int (*)(const char*, const char*)>("link");
    return liesUnder(to) && fails() ? -1 : real(from, to);
}

// A file without a name that is given one: so Qt writes what is to be there whole or not at all.
int linkat(int fromFolder, const char* from, int toFolder, const char* to, int how) noexcept
{
    static const auto real = next<int (*)(int, const char*, int, const char*, int)>("linkat");
    return liesUnder(toFolder, to) && fails() ? -1 : real(fromFolder, from, toFolder, to, how);
}

} // extern "C"
