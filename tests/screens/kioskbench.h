// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "benchcamera.h"
#include "benchhouse.h"

#include "kiosk/kioskapp.h"
#include "tour/visitor.h"

#include <QPointF>

#include <functional>
#include <memory>
#include <source_location>

class QQuickItem;
class QQuickWindow;

namespace ramplight::test {

/// A kiosk on the bench: the real window over a BenchHouse, looked at by what it says and touched
/// where a finger would, as the tour does. Every step that does not come about fails the test at
/// the caller's line.
///
///     KioskBench bench(BenchHouse::Start::Demo);
///     bench.show();
///     bench.tap("Who are you?");
///     bench.shoot("who");
class KioskBench
{
public:
    using Where = std::source_location;

    explicit KioskBench(BenchHouse::Start start);
    ~KioskBench();

    /// The kiosk that is shown next plans, too: a few schedules, the same ones each time.
    void letPlan()
    {
        m_planning = {.on = true,
                      .schedules = 60,
                      .quietMs = 20,
                      .runs = 60,
                      .back = {.mornings = 3, .ofEach = {.search = {.schedules = 20}, .runs = 40}}};
    }
    /// The kiosk that is shown next has a camera. Without this it has none, whatever this machine
    /// has.
    void putCamera() { m_hasCamera = true; }
    [[nodiscard]] BenchCamera& camera() { return *m_camera; }
    /// Opens the window and waits until the wall (or the first start) is there.
    void show(QSize size = {1920, 1080}, bool light = false, Where where = Where::current());
    /// As show(), after a kiosk that left this place.
    void showFrom(const QString& place)
    {
        m_lastPlace = place;
        show();
    }
    /// The power goes, and comes back: the kiosk is started anew on what lay on the disk.
    void cutPower(Where where = Where::current());
    /// The kiosk ends and is started anew on what lies on the disk now.
    void openAgain(Where where = Where::current());
    /// It froze: started again where somebody was.
    void startAfterFreezing(Where where = Where::current());
    /// The database is torn while the kiosk is off; it is started on that.
    void tearDatabase(BenchHouse::Torn part = BenchHouse::Torn::FirstHalf, const CarId& of = {},
                      Where where = Where::current());
    /// The same, where nothing but looking at that car tells it.
    void changeWords(const CarId& of, Where where = Where::current());
    [[nodiscard]] const PlanPace& planning() const { return m_planning; }
    [[nodiscard]] BenchHouse& house() { return m_house; }
    [[nodiscard]] Shell& shell() { return m_app->shell(); }
    [[nodiscard]] QQuickWindow* window() { return m_app->window(); }

    // ---- looking
    /// The topmost visible item that says exactly this: a button's words, a label's text.
    [[nodiscard]] QQuickItem* find(const QString& words) const { return m_visitor->find(words); }
    /// The visible items of a QML type, such as "CarCard", in painting order.
    [[nodiscard]] std::vector<QQuickItem*> ofType(const char* type) const
    {
        return m_visitor->ofType(type);
    }
    /// The topmost of a QML type with this text in that property; null when there is none.
    [[nodiscard]] QQuickItem* ofType(const char* type, const char* property,
                                     const QString& text) const;
    /// What a choice is called on its chip.
    [[nodiscard]] static QString titleOf(const Choices* choices, const QString& choiceId);
    [[nodiscard]] bool says(const QString& words) const { return find(words) != nullptr; }

    // ---- waiting; false (and the test has failed) when it does not come true
    bool until(const std::function<bool()>& true_, const QString& what,
               Where where = Where::current());
    bool untilSays(const QString& words, Where where = Where::current());
    bool untilGone(const QString& words, Where where = Where::current());

    // ---- touching
    /// Waits for the words, scrolls to them if they lie outside, and touches them.
    bool tap(const QString& words, Where where = Where::current());
    bool tap(QQuickItem* item, Where where = Where::current());
    void tapAt(QPointF point) { m_visitor->tapAt(point); }
    /// Drags a finger in steps and lets go.
    void drag(QPointF from, QPointF to) { m_visitor->drag(from, to); }
    /// By the keys of the touch keyboard or of the pad that is shown.
    bool type(const QString& text, Where where = Where::current());
    /// Touches the field or note with this label, types on the touch keyboard and puts that away.
    bool write(const QString& label, const QString& text, Where where = Where::current());
    /// What a long list makes only when it comes into sight: drags it until look finds it.
    bool tapListed(const std::function<QQuickItem*()>& look, const QString& what,
                   Where where = Where::current());
    /// From the wall to a car by its stock number.
    bool openCar(const QString& stockNumber, Where where = Where::current());
    /// From the open car to one of its operations.
    bool openWork(OperationId work, Where where = Where::current());
    /// Touches the name and enters the PIN; the names are on the screen already.
    bool signIn(const QString& name, Where where = Where::current());
    /// Enters the PIN on the pad that is shown.
    bool enterPin(const QString& pin = BenchHouse::pin(), Where where = Where::current());

    /// A picture into the folder that RAMPLIGHT_SHOTS names; nothing without it. The name gets
    /// -wide or -tall.
    void shoot(const QString& name);

private:
    /// Fails the test with the visitor's words when a step did not come about.
    bool told(bool came, Where where) const;

    BenchHouse m_house;
    PlanPace m_planning = {.on = false};
    BenchCamera* m_camera = nullptr; ///< the shell's
    bool m_hasCamera = false;
    std::unique_ptr<KioskApp> m_app;
    std::unique_ptr<Visitor> m_visitor;
    bool m_torn = false;
    QString m_place; ///< where somebody is
    QString m_lastPlace;
};

/// Nothing of the item stands over the other one's edges.
[[nodiscard]] bool liesWithin(const QQuickItem* item, const QQuickItem* around);
/// Wholly in its window, and nothing that cuts stands between it and whoever looks.
[[nodiscard]] bool isInSight(const QQuickItem* item);

/// Every warning of the QML engine fails the running test; call it in init().
void failOnQmlWarnings();

/// Rows for a test of both ways to hang a wall: the column "size".
void sizes();

} // namespace ramplight::test
