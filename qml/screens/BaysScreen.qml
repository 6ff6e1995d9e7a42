// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Who works on what, and when will it be ready: the bays now, the plan by bay and by person, the
// cars with what was promised.
ScreenFrame {
    id: root

    enum Look {
        Now,
        ByBay,
        ByPerson,
        Cars
    }

    readonly property PlanView plan: shell.plan
    readonly property PlannedJob job: shell.plannedJob
    property int look: BaysScreen.Now
    readonly property bool lanesShown: look === BaysScreen.ByBay || look === BaysScreen.ByPerson
    readonly property bool placing: lanes.placing
    property string openCar: ""
    // What the warning takes of each page.
    readonly property real headRoom: backups.visible ? backups.height + Theme.gap : 0

    title: qsTr("Bays")
    second: root.look === BaysScreen.Now ? "" : root.dotted(root.plan.asOf, root.plan.working ? qsTr("planning anew") : "")

    Component.onDestruction: root.job.choose(-1)

    Connections {
        target: root.job

        function onTaken(): void {
            jobSheet.shown = false
        }

        // It is done, or gone, meanwhile.
        function onChanged(): void {
            if (root.job.chosen)
                return
            jobSheet.shown = false
            lanes.placing = false
        }
    }

    WarningLine {
        id: backups

        text: root.shell.backups.warning
        onTapped: root.navigator.openSettings()
    }

    BaysNow {
        anchors { fill: parent; topMargin: root.headRoom }
        visible: root.look === BaysScreen.Now
        board: root.shell.board
        navigator: root.navigator
    }

    PlanLanes {
        id: lanes

        anchors { fill: parent; topMargin: root.headRoom + (hint.visible ? hint.height + Theme.half : 0) }
        visible: root.lanesShown && root.plan.planned
        plan: root.plan
        job: root.job
        ofPeople: root.look === BaysScreen.ByPerson
        onTouched: job => {
            root.job.choose(job)
            jobSheet.shown = root.job.chosen
        }
        onPlaced: (lane, day, minute) => {
            lanes.placing = false
            root.job.moveTo(lanes.ofPeople, lane, day, minute)
            jobSheet.shown = true
        }
    }

    Rectangle {
        id: hint

        y: root.headRoom
        width: parent.width
        height: Theme.mm(14)
        visible: root.placing && root.lanesShown
        radius: Theme.radius
        color: Theme.paper

        Label {
            anchors { left: parent.left; right: parent.right; margins: Theme.mm(6); verticalCenter: parent.verticalCenter }
            text: qsTr("Touch where %1 of %2 should go: the lane, and the time it begins at the soonest.").arg(root.job.title).arg(root.job.stockNumber)
            elide: Text.ElideRight
        }
    }

    // The days that the spreads of the cars stand on.
    Item {
        id: carDays

        readonly property real inset: Theme.mm(6)

        y: root.headRoom
        width: parent.width
        height: Theme.mm(10)
        visible: cars.visible && cars.count > 0

        Repeater {
            model: root.plan.shortDayWords

            delegate: Label {
                required property string modelData
                required property int index

                readonly property real day: (carDays.width - 2 * carDays.inset) / Math.max(1, root.plan.days)

                x: carDays.inset + index * day
                width: day - Theme.half
                text: modelData
                paper: false
                strong: index === 0
                elide: Text.ElideRight
            }
        }
    }

    ListView {
        id: cars

        anchors { left: parent.left; right: parent.right; top: carDays.bottom; bottom: parent.bottom }
        visible: root.look === BaysScreen.Cars && root.plan.planned
        clip: true
        spacing: Theme.half
        boundsBehavior: Flickable.DragOverBounds
        model: root.plan.cars

        delegate: PlanCarLine {
            width: cars.width
            days: root.plan.days
            inset: carDays.inset
            open: root.openCar === carId
            onTapped: root.openCar = root.openCar === carId ? "" : carId
        }
    }

    MoreBelow {
        list: cars
        paper: false
    }

    Waiting {
        anchors.centerIn: parent
        visible: root.look !== BaysScreen.Now && !root.plan.planned && root.plan.faultWords.length === 0
        text: qsTr("Planning the workshop")
    }

    EmptyState {
        anchors.centerIn: parent
        visible: root.look !== BaysScreen.Now && root.plan.faultWords.length > 0
        title: qsTr("The workshop cannot be planned")
        hint: root.plan.faultWords
    }

    EmptyState {
        anchors.centerIn: parent
        visible: root.look === BaysScreen.Cars && root.plan.planned && cars.count === 0
        title: qsTr("No car in prep")
        hint: qsTr("What comes in is planned at once.")
    }

    actions: [
        FilterTab {
            visible: !root.placing
            text: qsTr("Now")
            selected: root.look === BaysScreen.Now
            onTapped: root.look = BaysScreen.Now
        },
        FilterTab {
            text: qsTr("By bay")
            selected: root.look === BaysScreen.ByBay
            onTapped: root.look = BaysScreen.ByBay
        },
        FilterTab {
            text: qsTr("By person")
            selected: root.look === BaysScreen.ByPerson
            onTapped: root.look = BaysScreen.ByPerson
        },
        FilterTab {
            visible: !root.placing
            text: qsTr("Cars")
            note: root.plan.lateCount > 0 ? qsTr("%1 late").arg(root.plan.lateCount) : ""
            selected: root.look === BaysScreen.Cars
            onTapped: root.look = BaysScreen.Cars
        },
        ActionButton {
            visible: !root.placing
            kind: ActionButton.Accent
            text: qsTr("What if")
            available: root.plan.planned
            reason: qsTr("once it is planned")
            onTapped: root.navigator.openWhatIf()
        },
        ActionButton {
            visible: root.placing
            text: qsTr("Leave it where it is")
            onTapped: lanes.placing = false
        }
    ]

    sheets: [
        PlanJobSheet {
            id: jobSheet

            job: root.job
            onCarWanted: root.navigator.openCar(root.job.carId)
            onOperationWanted: root.navigator.openOperation(root.job.carId, root.job.operationId)
            onPlaceWanted: {
                jobSheet.shown = false
                lanes.placing = true
            }
        }
    ]
}
