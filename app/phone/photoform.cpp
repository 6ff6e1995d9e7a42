// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/photoform.h"

#include <microhttpd.h>
#include <sys/eventfd.h>
#include <unistd.h>

#include <algorithm>
#include <cstring>
#include <utility>

namespace ramplight {

namespace {

constexpr std::size_t readerBytes = 16 * 1024;
constexpr const char* photoField = "photo";

/// The library reads the fields of a page without files, too, and takes their broken escapes for
/// one thing or another depending on where a piece ends. No photo comes that way.
bool bringsFiles(MHD_Connection* connection)
{
    const char* kind =
        MHD_lookup_connection_value(connection, MHD_HEADER_KIND, MHD_HTTP_HEADER_CONTENT_TYPE);
    constexpr QByteArrayView files(MHD_HTTP_POST_ENCODING_MULTIPART_FORMDATA);
    const QByteArrayView given(kind);
    return given.first(std::min(given.size(), files.size())).compare(files, Qt::CaseInsensitive) ==
           0;
}

} // namespace

Bell::Bell()
    : m_descriptor(eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC))
{
}

Bell::~Bell()
{
    if (m_descriptor >= 0)
        close(m_descriptor);
}

void Bell::ring() const
{
    const quint64 once = 1;
    // A full counter is readable, which is all that is wanted.
    std::ignore = write(m_descriptor, &once, sizeof once);
}

void Bell::hush() const
{
    quint64 count = 0;
    std::ignore = read(m_descriptor, &count, sizeof count);
}

PhotoAnswers::PhotoAnswers(std::shared_ptr<const Bell> bell)
    : m_bell(std::move(bell))
{
}

std::function<void(const PhotoAnswer&)> PhotoAnswers::ask()
{
    const std::scoped_lock lock(m_sheet->gate);
    const std::size_t at = m_sheet->answers.size();
    m_sheet->answers.emplace_back();
    ++m_sheet->open;
    return [sheet = m_sheet, bell = m_bell, at](const PhotoAnswer& answer) {
        const std::scoped_lock once(sheet->gate);
        if (sheet->answers[at])
            return;
        sheet->answers[at] = answer;
        if (--sheet->open == 0)
            bell->ring();
    };
}

bool PhotoAnswers::complete() const
{
    const std::scoped_lock lock(m_sheet->gate);
    return m_sheet->open == 0;
}

std::vector<PhotoAnswer> PhotoAnswers::all(const PhotoAnswer& otherwise) const
{
    const std::scoped_lock lock(m_sheet->gate);
    std::vector<PhotoAnswer> answers;
    for (const auto& answer : m_sheet->answers)
        answers.push_back(answer.value_or(otherwise));
    return answers;
}

/// The reader's callback.
struct PhotoFormReader
{
    static MHD_Result part(void* form, MHD_ValueKind, const char* key, const char* fileName,
                           const char*, const char*, const char* data, std::uint64_t offset,
                           std::size_t size)
    {
        const bool isPhoto = key != nullptr && std::strcmp(key, photoField) == 0;
        auto* self = static_cast<PhotoForm*>(form);
        if (isPhoto)
            self->part(offset == 0, QByteArray(fileName), {data, static_cast<qsizetype>(size)});
        else
            self->otherField();
        return MHD_YES;
    }
};

PhotoForm::PhotoForm(MHD_Connection* connection, const PhoneLimits& limits,
                     std::shared_ptr<std::atomic<qint64>> held, std::shared_ptr<const Bell> bell,
                     Deliver deliver)
    : m_limits(limits)
    , m_held(std::move(held))
    , m_deliver(std::move(deliver))
    , m_answers(std::move(bell))
    , m_reader(bringsFiles(connection)
                   ? MHD_create_post_processor(connection, readerBytes, PhotoFormReader::part, this)
                   : nullptr)
{
}

PhotoForm::~PhotoForm()
{
    if (m_reader != nullptr)
        MHD_destroy_post_processor(m_reader);
    giveBack();
}

bool PhotoForm::take(const char* bytes, std::size_t size)
{
    m_total += static_cast<qint64>(size);
    ++m_piece;
    return m_total <= m_limits.formBytes && m_reader != nullptr &&
           MHD_post_process(m_reader, bytes, size) == MHD_YES;
}

void PhotoForm::finish()
{
    // Where the end is missing, so is the end of its last photo, and whoever decodes it says so.
    if (m_reader != nullptr)
        MHD_destroy_post_processor(m_reader);
    m_reader = nullptr;
    endPart();
    m_finished = true;
}

void PhotoForm::part(bool begins, const QByteArray& fileName, QByteArrayView bytes)
{
    // Where a piece of the form ends with the headers of a part, the reader begins that twice: with
    // nothing, and with its first bytes in a later piece.
    const int emptyIn = std::exchange(m_emptyIn, begins && bytes.isEmpty() ? m_piece : 0);
    const bool goesOn = emptyIn != 0 && emptyIn != m_piece && fileName == m_fileName;
    if (begins && !(goesOn && !bytes.isEmpty())) {
        endPart();
        m_inPart = true;
        m_named = !fileName.isEmpty();
        m_fileName = fileName;
    }
    // A field in which nothing was chosen has neither name nor bytes.
    if (!m_inPart || (!m_named && bytes.isEmpty()))
        return;
    m_named = true;
    if (!m_fault.isEmpty() || m_parts >= m_limits.photosPerForm)
        return;
    if (m_photo.size() + bytes.size() > m_limits.photoBytes)
        m_fault = phonewords::tooLarge();
    else if (m_held->fetch_add(bytes.size()) + bytes.size() > m_limits.heldBytes) {
        m_held->fetch_sub(bytes.size());
        m_fault = phonewords::busy();
    }
    if (m_fault.isEmpty())
        m_photo.append(bytes);
    else
        giveBack();
}

void PhotoForm::otherField()
{
    m_emptyIn = 0;
    endPart();
}

void PhotoForm::endPart()
{
    if (m_inPart && m_named) {
        if (m_parts == m_limits.photosPerForm)
            m_answers.add(tl::unexpected(phonewords::tooMany()));
        else if (m_parts < m_limits.photosPerForm && !m_fault.isEmpty())
            m_answers.add(tl::unexpected(m_fault));
        else if (m_parts < m_limits.photosPerForm) {
            const qint64 bytes = m_photo.size();
            // The memory counts until there is an answer.
            const auto guard = std::shared_ptr<void>(
                nullptr, [held = m_held, bytes](void*) { held->fetch_sub(bytes); });
            const QByteArray photo = std::exchange(m_photo, {});
            m_deliver(photo,
                      [answer = m_answers.ask(), guard](const PhotoAnswer& said) { answer(said); });
        }
        ++m_parts;
    }
    giveBack();
    m_fault.clear();
    m_inPart = false;
    m_named = false;
}

void PhotoForm::giveBack()
{
    m_held->fetch_sub(m_photo.size());
    m_photo = {};
}

} // namespace ramplight
