// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/phonecamera.h"

#include "domain/words.h"
#include "kiosk/ask.h"
#include "kiosk/carwords.h"
#include "kiosk/photourl.h"
#include "kiosk/seenbefore.h"

#include <QTimer>

#include <algorithm>
#include <utility>

namespace ramplight {

namespace {

constexpr qint64 minuteMs = 60'000;

constexpr std::array phoneColumns{
    Column<PhonePhotoRow>{"number", cell<&PhonePhotoRow::number>},
    Column<PhonePhotoRow>{"url", cell<&PhonePhotoRow::url>},
    Column<PhonePhotoRow>{"caption", cell<&PhonePhotoRow::caption>},
    Column<PhonePhotoRow>{"refused", cell<&PhonePhotoRow::refused>},
};

/// On the GUI thread, from any other.
void later(QObject* context, const std::function<void()>& work)
{
    QTimer::singleShot(0, context, work);
}

void refuse(const PhoneServer::Reply& reply, const QString& why)
{
    reply(tl::unexpected(PhoneCamera::tr("Not taken. %1").arg(why)));
}

} // namespace

PhonePhotos::PhonePhotos(QObject* parent)
    : ListBase(std::make_unique<RowTable<PhonePhotoRow>>(phoneColumns), parent)
{
}

PhoneCamera::PhoneCamera(Desk& desk, OperationView& operation, CarView& car, Session& session,
                         Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_operation(operation)
    , m_car(car)
    , m_session(session)
    , m_ticker(ticker)
    , m_nowMs(ticker.steadyMs())
    , m_server(
          [this](InvitationId id, const QByteArray& photo, const PhoneServer::Reply& reply) {
              later(this, [this, id, photo, reply] { take(id, photo, reply); });
          },
          PhoneLimits{}, [this] { return m_nowMs.load(); })
{
    connect(&ticker, &Ticker::second, this, &PhoneCamera::second);
}

PhoneCamera::~PhoneCamera() = default;

QString PhoneCamera::serve(const PhoneSettings& settings)
{
    m_settings = settings;
    m_codes.clear();
    m_shown = {};
    m_photos.show({});
    m_fault.clear();
    if (settings.address.isEmpty())
        m_server.stop();
    else if (const auto served = m_server.listen(settings.address, settings.port); !served)
        m_fault = served.error();
    emit changed();
    return m_fault;
}

void PhoneCamera::pause()
{
    m_paused = std::exchange(m_settings, {});
    serve({});
}

void PhoneCamera::goOn()
{
    if (m_paused)
        serve(*std::exchange(m_paused, std::nullopt));
}

PhoneCamera::Code* PhoneCamera::find(InvitationId id)
{
    const auto code =
        std::ranges::find(m_codes, id, [](const Code& each) { return each.invitation.id; });
    return code == m_codes.end() ? nullptr : &*code;
}

const PhoneCamera::Code* PhoneCamera::find(InvitationId id) const
{
    return const_cast<PhoneCamera*>(this)->find(id);
}

bool PhoneCamera::isOpen() const
{
    return minutesLeft() > 0;
}

QString PhoneCamera::address() const
{
    const Code* code = find(m_shown);
    return code != nullptr && isOpen() ? m_server.addressOf(code->invitation) : QString();
}

QString PhoneCamera::cameWords() const
{
    const std::vector<PhonePhotoRow>& rows = m_photos.rows();
    const auto refused = std::ranges::count_if(rows, &PhonePhotoRow::refused);
    const auto came = std::ssize(rows) - refused;
    const QString words = came == 0   ? tr("No photo has come yet.")
                          : came == 1 ? tr("One photo has come.")
                                      : tr("%1 photos have come.").arg(came);
    if (refused == 0)
        return words;
    return refused == 1 ? tr("%1 One was not taken.").arg(words)
                        : tr("%1 %2 were not taken.").arg(words).arg(refused);
}

int PhoneCamera::minutesLeft() const
{
    const Code* code = find(m_shown);
    if (code == nullptr)
        return 0;
    const qint64 left = code->invitation.endsMs - m_nowMs;
    return left <= 0 ? 0 : static_cast<int>((left + minuteMs - 1) / minuteMs);
}

void PhoneCamera::second()
{
    m_nowMs = m_ticker.steadyMs();
    // What is on the sheet stays to be looked at when its time is over.
    std::erase_if(m_codes, [this](const Code& code) {
        return code.invitation.endsMs <= m_nowMs && code.invitation.id != m_shown;
    });
    if (m_minutesTold != minutesLeft()) {
        m_minutesTold = minutesLeft();
        emit changed();
    }
}

QString PhoneCamera::carWords() const
{
    const Identity& identity = m_car.car().identity;
    return dotted({identity.stockNumber, identity.registration, makeModelOf(identity)});
}

void PhoneCamera::inviteForWork(const QString& moment, const QString& prompt)
{
    if (const auto target = m_operation.photoTarget(moment))
        invite(*target,
               {prompt, dotted({m_operation.title(), m_operation.placeWords()}), carWords()});
}

void PhoneCamera::inviteForFinding(int findingId, const QString& prompt)
{
    invite(photoOfFinding(m_car.car(), FindingId{findingId}),
           {prompt.isEmpty() ? tr("A photo of what was found") : prompt, {}, carWords()});
}

void PhoneCamera::invite(const PhotoTarget& target, const PhoneErrand& errand)
{
    if (!configured())
        return;
    m_session.whenSignedIn(target.why, [this, target, errand](PersonId person) {
        m_nowMs = m_ticker.steadyMs();
        // The network may have come up later than the kiosk.
        if (!m_server.isListening() && !serve(m_settings).isEmpty())
            return;
        auto wanted = std::ranges::find_if(m_codes, [&](const Code& code) {
            return code.actor == person && code.target.isSameAs(target) &&
                   code.invitation.endsMs > m_nowMs;
        });
        if (wanted == m_codes.end())
            wanted = m_codes.insert(wanted, {m_server.invite(errand), person, target, {}});
        show(*wanted);
    });
}

void PhoneCamera::show(const Code& code)
{
    m_shown = code.invitation.id;
    m_photos.show(code.photos);
    m_minutesTold = minutesLeft();
    emit changed();
}

void PhoneCamera::end()
{
    m_server.end(m_shown);
    std::erase_if(m_codes, [this](const Code& code) { return code.invitation.id == m_shown; });
    leave();
}

void PhoneCamera::leave()
{
    if (m_session.signedIn() && find(m_shown) != nullptr) {
        end();
        return;
    }
    m_shown = {};
    m_photos.show({});
    emit changed();
}

void PhoneCamera::tell(InvitationId id, const PhonePhotoRow& row)
{
    Code* code = find(id);
    if (code == nullptr)
        return;
    const auto known = std::ranges::find(code->photos, row.number, &PhonePhotoRow::number);
    if (known == code->photos.end())
        code->photos.push_back(row);
    else
        *known = row;
    if (id == m_shown) {
        m_photos.show(code->photos);
        emit changed();
    }
}

void PhoneCamera::take(InvitationId id, const QByteArray& bytes, const PhoneServer::Reply& reply)
{
    if (find(id) == nullptr) {
        reply(tl::unexpected(phonewords::ended()));
        return;
    }
    const int number = ++m_lastPhoto;
    tell(id, {number, {}, tr("arrived, being looked at"), false});
    whenReady(m_desk.keepPhotoBytes(bytes), this,
              [this, id, number, reply](const tl::expected<PhotoTaken, EvidenceError>& photo) {
                  if (photo) {
                      attach(id, number, *photo, reply);
                      return;
                  }
                  tell(id, {number, {}, words(photo.error()), true});
                  refuse(reply, words(photo.error()));
              });
}

void PhoneCamera::attach(InvitationId id, int number, const PhotoTaken& taken,
                         const PhoneServer::Reply& reply)
{
    const Code* code = find(id);
    if (code == nullptr) {
        reply(tl::unexpected(phonewords::ended()));
        return;
    }
    whenReady(m_desk.car(code->target.car), this,
              [this, id, number, taken, reply, actor = code->actor,
               target = code->target](const tl::expected<CarState, Failure>& car) {
                  const auto command = car ? target.with(taken.photo.id, *car) : std::nullopt;
                  if (command) {
                      attachAs(id, number, taken, {actor, target, *command}, reply);
                      return;
                  }
                  const QString why = car ? PhotoTarget::goneWords() : words(car.error());
                  tell(id, {number, {}, why, true});
                  refuse(reply, why);
              });
}

void PhoneCamera::attachAs(InvitationId id, int number, const PhotoTaken& taken,
                           const Attaching& attaching, const PhoneServer::Reply& reply)
{
    whenReady(
        m_desk.run(CarRequest{
            newCommandId(), attaching.actor, attaching.target.car, {attaching.command}, false}),
        this,
        [this, id, number, taken, reply,
         target = attaching.target](const tl::expected<CarOutcome, Failure>& outcome) {
            if (!outcome) {
                tell(id, {number, {}, words(outcome.error()), true});
                refuse(reply, words(outcome.error()));
                return;
            }
            tellSeenBefore(
                m_desk, this, target, outcome->car, {taken},
                [this, id, number, reply](const std::vector<PhotoTaken>& looked) {
                    const PhotoTaken& photo = looked.front();
                    const QString warnings = photo.warnings.join(QLatin1Char(' '));
                    tell(id, {number, photoUrl(photo.photo.id, PhotoSize::Panel), warnings, false});
                    reply(warnings);
                });
        });
}

} // namespace ramplight
