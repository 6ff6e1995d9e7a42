// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "domain/kepttimers.h"
#include "domain/say.h"
#include "log/log.h"
#include "storage/standby.h"
#include "storage/standbyfiles.h"

#include <QFile>

#include <algorithm>
#include <tuple>
#include <utility>
#include <vector>

// The way back: what was kept and counted meanwhile goes to the server.
namespace ramplight {

namespace {

bool isAbout(const KeptRequest& request, const QStringList& cars)
{
    return std::ranges::any_of(request.works,
                               [&](const KeptWork& work) { return cars.contains(work.car.text); });
}

void addCars(const KeptRequest& request, QStringList& cars)
{
    for (const KeptWork& work : request.works)
        if (!cars.contains(work.car.text))
            cars.append(work.car.text);
}

/// Takes one that is the same out of the list. Whether there was one.
bool takeOut(std::vector<SignInMark>& marks, const SignInMark& mark)
{
    const auto found = std::ranges::find(marks, mark);
    if (found == marks.end())
        return false;
    marks.erase(found);
    return true;
}

} // namespace

tl::expected<void, StoreError> Standby::send(Store& server, Ledger& door)
{
    const auto all = keptOrRescued();
    if (!all)
        return tl::unexpected(all.error());
    QStringList cars;
    std::vector<qint64> taken;
    std::set<CommandId> before;
    QStringList damaged;
    QStringList waiting;
    QString why;
    for (const KeptRequest& request : *all) {
        // What goes on from what waits, waits with it.
        if (!request.waits() || isAbout(request, damaged) || isAbout(request, waiting))
            continue;
        const auto waits = whyItWaits(request, door);
        if (waits && !waits->isEmpty()) {
            addCars(request, waiting);
            why = *waits;
            continue;
        }
        const auto sent = sendKept(request, door, m_catalogue, before);
        // One car that is damaged there keeps nobody's other work here.
        if (!sent && sent.error().kind == StoreErrorKind::Damaged && server.ledger().siteView()) {
            addCars(request, damaged);
            continue;
        }
        if (!sent)
            return tl::unexpected(sent.error());
        before.insert(idOf(request.asked));
        addCars(request, cars);
        if (!*sent) {
            taken.push_back(request.number);
            continue;
        }
        log::warn(QStringLiteral("outbox: %1 was refused").arg(request.number));
        if (auto noted = m_outbox->refuse(request.number, **sent, m_clock.now()); !noted)
            return tl::unexpected(noted.error());
    }
    tellOwed(damaged, why);
    if (!cars.isEmpty())
        if (auto followed = takeSent(server, cars); !followed)
            return followed;
    for (const qint64 number : taken)
        if (auto removed = m_outbox->remove(number); !removed)
            return tl::unexpected(removed.error());
    if (!taken.empty())
        log::info(
            QStringLiteral("outbox: %1 requests are in the server's ledger now").arg(taken.size()));
    return {};
}

void Standby::tellOwed(const QStringList& damaged, const QString& waits)
{
    QStringList numbers;
    for (const QString& car : damaged) {
        const auto known = m_mirror->store().ledger().car(CarId{car});
        const QString number = known ? known->identity.stockNumber : car;
        if (!numbers.contains(number))
            numbers.append(number);
    }
    const QString why =
        numbers.isEmpty()
            ? waits
            : say("What the server has of %1 is not what was written there, and what was kept here "
                  "of it waits. Have the ledger checked (ramplight verify) and a backup brought "
                  "back.")
                  .arg(numbers.join(QStringLiteral(", ")));
    const bool isNews = !why.isEmpty() && why != m_owedWhy;
    if (isNews && !numbers.isEmpty())
        log::error(QStringLiteral("outbox: %1").arg(why));
    else if (isNews)
        log::warn(QStringLiteral("outbox: %1").arg(why));
    m_owedWhy = why;
}

// What goes out of the outbox stands in the mirror before: were the server away again at once,
// nothing of it would be missing here.
tl::expected<void, StoreError> Standby::takeSent(Store& server, const QStringList& cars)
{
    auto followed = m_mirror->takeCars(server.ledger(), cars);
    // What a newer program wrote is whole: it waits for that.
    if (followed || server.ledger().connection().isLost() ||
        followed.error().kind == StoreErrorKind::TooNew)
        return followed;
    if (followed.error().kind != StoreErrorKind::Damaged)
        if (const auto here = m_mirror->cars())
            followed = m_mirror->takeCars(server.ledger(), *here);
    if (followed || server.ledger().connection().isLost())
        return followed;
    // It is not what the server has: an older backup was brought back there, or it is damaged here.
    // Until all is taken over anew this kiosk does not say that it knows the workshop.
    log::warn(QStringLiteral("mirror: %1").arg(followed.error().words));
    return renewMirror(server);
}

// Left by a kiosk that ended while the server was away: wrong PINs are counted in it. Whether there
// is one.
bool Standby::openLeftCopy()
{
    if (m_working || !QFile::exists(path(standbyfiles::working)))
        return m_working != nullptr;
    auto left = openCopy(path(standbyfiles::working));
    if (!left) {
        log::warn(QStringLiteral("working copy: %1").arg(left.error().words));
        return false;
    }
    m_working = std::move(*left);
    return true;
}

Standby::Marks Standby::marksIn(Store& copy, PersonId person)
{
    auto all = copy.failures().marks(person);
    if (!all)
        return {};
    Marks marks{std::move(*all), 0};
    auto rows = copy.ledger().connection().run("SELECT count(*) FROM known_mark WHERE person = ?",
                                               {person.value});
    if (rows && rows->next())
        marks.known = std::min(marks.all.size(), static_cast<std::size_t>(rows->number(0)));
    return marks;
}

tl::expected<void, StoreError> Standby::sendMarks(Store& server)
{
    if (!m_working)
        return {};
    const auto site = m_working->ledger().site();
    if (!site)
        return {};
    for (const auto& [person, about] : site->people)
        if (auto sent = sendMarksOf(person, server); !sent)
            return sent;
    // What is marked about several people.
    return sendMarksOf({}, server);
}

// Each once, wherever the line was lost: what the server has of them already is known by kind and
// millisecond, and a PIN takes a hundred to be looked at.
tl::expected<void, StoreError> Standby::sendMarksOf(PersonId person, Store& server)
{
    const Marks here = marksIn(*m_working, person);
    if (here.all.size() == here.known)
        return {};
    const auto noMarks =
        tl::unexpected(StoreError{StoreErrorKind::Unavailable, QStringLiteral("no marks taken")});
    auto there = server.failures().marks(person);
    if (!there)
        return noMarks;
    for (std::size_t i = 0; i < here.all.size(); ++i) {
        const bool isThere = takeOut(*there, here.all[i]);
        if (i >= here.known && !isThere && !server.failures().add(person, here.all[i]))
            return noMarks;
    }
    return {};
}

tl::expected<void, StoreError> Standby::handBack(Store& server, Ledger& door)
{
    if (!isOpen())
        return {};
    std::ignore = openLeftCopy();
    if (auto sent = send(server, door); !sent)
        return sent;
    if (auto marks = sendMarks(server); !marks)
        return marks;
    dropWorkingCopy();
    return {};
}

} // namespace ramplight
