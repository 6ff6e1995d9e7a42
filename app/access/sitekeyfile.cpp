// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/sitekeyfile.h"

#include "log/log.h"

#include <QFile>
#include <QFileInfo>

#include <fcntl.h>
#include <sodium.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace ramplight {
namespace {

constexpr std::string_view magic = "ramplight-site-keys ";
constexpr std::string_view pastName = "past ";
constexpr int version = 2; // 1 while there are no past keys
constexpr std::size_t idBytes = 8;
constexpr std::size_t checkBytes = 16;

/// The file's text. Overwritten when it goes, because it holds the keys; larger than any file of
/// ours.
struct Text
{
    std::array<char, 4096> bytes{};
    std::size_t size = 0;

    Text() = default;
    Text(const Text&) = delete;
    Text& operator=(const Text&) = delete;
    ~Text() { sodium_memzero(bytes.data(), bytes.size()); }

    [[nodiscard]] std::string_view view() const { return {bytes.data(), size}; }
    void add(std::string_view more)
    {
        std::copy(more.begin(), more.end(), bytes.begin() + static_cast<std::ptrdiff_t>(size));
        size += more.size();
    }
    void addHex(const unsigned char* data, std::size_t count)
    {
        sodium_bin2hex(bytes.data() + size, bytes.size() - size, data, count);
        size += 2 * count;
    }
};

class Descriptor
{
public:
    explicit Descriptor(int fd)
        : m_fd(fd)
    {
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor()
    {
        if (m_fd >= 0)
            ::close(m_fd);
    }
    [[nodiscard]] int get() const { return m_fd; }
    [[nodiscard]] bool isOpen() const { return m_fd >= 0; }

private:
    int m_fd;
};

std::array<unsigned char, checkBytes> checkOf(std::string_view lines)
{
    std::array<unsigned char, checkBytes> sum{};
    crypto_generichash(sum.data(), sum.size(), reinterpret_cast<const unsigned char*>(lines.data()),
                       lines.size(), nullptr, 0);
    return sum;
}

void compose(const SiteKeys& keys, Text& text)
{
    text.add(magic);
    text.add(keys.past().empty() ? "1" : "2");
    text.add("\nid ");
    text.add(keys.id().toStdString());
    text.add("\npepper ");
    text.addHex(keys.pepper().data(), keys.pepper().size());
    text.add("\ndigest ");
    text.addHex(keys.digestKey().data(), keys.digestKey().size());
    text.add("\n");
    for (const SiteKeys::Past& past : keys.past()) {
        text.add("past ");
        text.add(past.id.toStdString());
        text.add(" ");
        text.addHex(past.digestKey.data(), past.digestKey.size());
        text.add("\n");
    }
    const auto sum = checkOf(text.view());
    text.add("check ");
    text.addHex(sum.data(), sum.size());
    text.add("\n");
}

/// The value of "name value\n" at the front of rest, which is then moved on behind it.
std::optional<std::string_view> takeLine(std::string_view& rest, std::string_view name)
{
    const std::size_t end = rest.find('\n');
    if (end == std::string_view::npos || !rest.starts_with(name))
        return std::nullopt;
    const std::string_view value = rest.substr(name.size(), end - name.size());
    rest.remove_prefix(end + 1);
    return value;
}

template <std::size_t Count>
bool fromHex(std::string_view hex, std::array<unsigned char, Count>& out)
{
    std::size_t length = 0;
    return hex.size() == 2 * Count &&
           sodium_hex2bin(out.data(), out.size(), hex.data(), hex.size(), nullptr, &length,
                          nullptr) == 0 &&
           length == Count;
}

std::optional<Secret> takeKey(std::string_view& rest, std::string_view name)
{
    const auto hex = takeLine(rest, name);
    std::array<unsigned char, SiteKeys::keyBytes> raw{};
    std::optional<Secret> key;
    if (hex && fromHex(*hex, raw))
        key.emplace(QByteArrayView(raw));
    sodium_memzero(raw.data(), raw.size());
    return key;
}

bool isId(std::string_view hex)
{
    std::array<unsigned char, idBytes> raw{};
    return fromHex(hex, raw);
}

QString textOf(std::string_view text)
{
    return QString::fromLatin1(text.data(), static_cast<qsizetype>(text.size()));
}

tl::expected<SiteKeys, AccessError> parse(std::string_view whole)
{
    const auto damaged = tl::unexpected(AccessError::KeyFileDamaged);
    std::string_view rest = whole;
    const auto number = takeLine(rest, magic);
    if (!number)
        return damaged;
    int found = 0;
    const auto [end, problem] =
        std::from_chars(number->data(), number->data() + number->size(), found);
    if (problem != std::errc() || end != number->data() + number->size() || found < 1)
        return damaged;
    // Before the check sum: a newer format may end otherwise.
    if (found > version)
        return tl::unexpected(AccessError::KeyFileNewer);

    const auto id = takeLine(rest, "id ");
    if (!id || !isId(*id))
        return damaged;
    auto pepper = takeKey(rest, "pepper ");
    auto digestKey = takeKey(rest, "digest ");
    if (!pepper || !digestKey)
        return damaged;
    std::vector<SiteKeys::Past> past;
    while (rest.starts_with(pastName)) {
        const std::string_view pastId = rest.substr(pastName.size(), 2 * idBytes);
        auto key = takeKey(rest, std::string(pastName).append(pastId).append(" "));
        if (!key || !isId(pastId) || past.size() == SiteKeys::mostPast)
            return damaged;
        past.push_back({textOf(pastId), std::move(*key)});
    }
    // As text: no letter of it may be a capital either, as one flipped bit makes it.
    Text sum;
    const auto sumBytes = checkOf(whole.substr(0, whole.size() - rest.size()));
    sum.addHex(sumBytes.data(), sumBytes.size());
    const auto check = takeLine(rest, "check ");
    if (!check || *check != sum.view() || !rest.empty())
        return damaged;
    return SiteKeys(textOf(*id), std::move(*pepper), std::move(*digestKey), std::move(past));
}

QByteArray digestWith(const Secret& key, QByteArrayView bytes)
{
    static_assert(crypto_auth_hmacsha256_KEYBYTES == SiteKeys::keyBytes);
    QByteArray digest(crypto_auth_hmacsha256_BYTES, '\0');
    crypto_auth_hmacsha256(reinterpret_cast<unsigned char*>(digest.data()),
                           reinterpret_cast<const unsigned char*>(bytes.data()),
                           static_cast<unsigned long long>(bytes.size()), key.data());
    return digest;
}

bool writeAll(int fd, std::string_view bytes)
{
    while (!bytes.empty()) {
        const ssize_t wrote = ::write(fd, bytes.data(), bytes.size());
        if (wrote < 0 && errno == EINTR)
            continue;
        if (wrote <= 0)
            return false;
        bytes.remove_prefix(static_cast<std::size_t>(wrote));
    }
    return true;
}

bool readAll(int fd, Text& text)
{
    while (text.size < text.bytes.size()) {
        const ssize_t got =
            ::read(fd, text.bytes.data() + text.size, text.bytes.size() - text.size);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return false;
        if (got == 0)
            return true;
        text.size += static_cast<std::size_t>(got);
    }
    return true;
}

} // namespace

SiteKeys::SiteKeys(QString id, Secret pepper, Secret digestKey, std::vector<Past> past)
    : m_id(std::move(id))
    , m_pepper(std::move(pepper))
    , m_digestKey(std::move(digestKey))
    , m_past(std::move(past))
{
}

SiteKeys SiteKeys::fresh()
{
    // Without it the generator of the system is taken all the same.
    [[maybe_unused]] const int ready = sodium_init();
    std::array<unsigned char, idBytes> idRaw{};
    randombytes_buf(idRaw.data(), idRaw.size());
    return {QString::fromLatin1(QByteArray(reinterpret_cast<const char*>(idRaw.data()),
                                           static_cast<qsizetype>(idRaw.size()))
                                    .toHex()),
            Secret::random(keyBytes), Secret::random(keyBytes)};
}

SiteKeys SiteKeys::renewed() const
{
    SiteKeys keys = fresh();
    for (const Past& past : m_past)
        keys.m_past.push_back({past.id, past.digestKey.clone()});
    keys.m_past.push_back({m_id, m_digestKey.clone()});
    return keys;
}

QByteArray SiteKeys::keyedDigest(QByteArrayView bytes) const
{
    return digestWith(m_digestKey, bytes);
}

QByteArray SiteKeys::pastDigest(const QString& id, QByteArrayView bytes) const
{
    const auto past = std::ranges::find(m_past, id, &Past::id);
    return past == m_past.end() ? QByteArray() : digestWith(past->digestKey, bytes);
}

bool SiteKeys::matches(QByteArrayView digest, QByteArrayView bytes) const
{
    return digest.size() == crypto_auth_hmacsha256_BYTES &&
           crypto_auth_hmacsha256_verify(reinterpret_cast<const unsigned char*>(digest.data()),
                                         reinterpret_cast<const unsigned char*>(bytes.data()),
                                         static_cast<unsigned long long>(bytes.size()),
                                         m_digestKey.data()) == 0;
}

SiteKeyFile::SiteKeyFile(QString path)
    : m_path(std::move(path))
{
}

tl::expected<SiteKeys, AccessError> SiteKeyFile::create() const
{
    if (sodium_init() < 0)
        return tl::unexpected(AccessError::KeyFileNoWriting);
    SiteKeys keys = SiteKeys::fresh();
    if (const auto written = write(keys); !written)
        return tl::unexpected(written.error());
    log::info(QStringLiteral("site key file made, key id %1").arg(keys.id()));
    return keys;
}

tl::expected<void, AccessError> SiteKeyFile::writeOnStick(const SiteKeys& keys) const
{
    Text text;
    compose(keys, text);
    const QByteArray target = QFile::encodeName(m_path);
    const Descriptor file(
        ::open(target.constData(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR));
    if (!file.isOpen())
        return tl::unexpected(errno == EEXIST ? AccessError::KeyFileExists
                                              : AccessError::KeyFileNoWriting);
    if (!writeAll(file.get(), text.view()) || ::fsync(file.get()) != 0) {
        ::unlink(target.constData());
        return tl::unexpected(AccessError::KeyFileNoWriting);
    }
    // Who reads it again is to read the stick; advice to the kernel, not a promise.
    ::posix_fadvise(file.get(), 0, 0, POSIX_FADV_DONTNEED);
    return {};
}

tl::expected<void, AccessError> SiteKeyFile::write(const SiteKeys& keys) const
{
    const auto failed = tl::unexpected(AccessError::KeyFileNoWriting);
    Text text;
    compose(keys, text);

    // Written whole under another name first; link() then gives it its name only if that is free.
    const QByteArray target = QFile::encodeName(m_path);
    const QByteArray folder = QFile::encodeName(QFileInfo(m_path).absolutePath());
    QByteArray draft = target + ".XXXXXX";
    const Descriptor file(::mkostemp(draft.data(), O_CLOEXEC));
    if (!file.isOpen())
        return failed;
    const bool whole = ::fchmod(file.get(), S_IRUSR | S_IWUSR) == 0 &&
                       writeAll(file.get(), text.view()) && ::fsync(file.get()) == 0;
    const int linked = whole ? ::link(draft.constData(), target.constData()) : -1;
    const int problem = whole && linked != 0 ? errno : 0;
    ::unlink(draft.constData());
    if (problem == EEXIST)
        return tl::unexpected(AccessError::KeyFileExists);
    if (linked != 0)
        return failed;
    const Descriptor directory(::open(folder.constData(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (!directory.isOpen() || ::fsync(directory.get()) != 0) {
        ::unlink(target.constData());
        return failed;
    }
    return {};
}

tl::expected<SiteKeys, AccessError> SiteKeyFile::read() const
{
    return read(false);
}

tl::expected<SiteKeys, AccessError> SiteKeyFile::readFromStick() const
{
    return read(true);
}

tl::expected<SiteKeys, AccessError> SiteKeyFile::read(bool mayBeOpen) const
{
    if (sodium_init() < 0)
        return tl::unexpected(AccessError::KeyFileNoReading);
    // Non-blocking, or a pipe under this name would hold the start for ever.
    const Descriptor file(
        ::open(QFile::encodeName(m_path).constData(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
    if (!file.isOpen())
        return tl::unexpected(errno == ENOENT || errno == ENOTDIR ? AccessError::KeyFileMissing
                                                                  : AccessError::KeyFileNoReading);
    struct stat facts
    {
    };
    if (::fstat(file.get(), &facts) != 0)
        return tl::unexpected(AccessError::KeyFileNoReading);
    if (!S_ISREG(facts.st_mode))
        return tl::unexpected(AccessError::KeyFileDamaged);
    if (!mayBeOpen && (facts.st_mode & (S_IRWXG | S_IRWXO)) != 0)
        return tl::unexpected(AccessError::KeyFileTooOpen);
    Text text;
    if (!readAll(file.get(), text))
        return tl::unexpected(AccessError::KeyFileNoReading);
    return parse(text.view());
}

} // namespace ramplight
