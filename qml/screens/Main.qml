// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The window of the kiosk.
//   shell, pxPerMm (of the configured screen), dark, lessMotion, sounds, fullScreen
// From below: the wall, which stays; the one other screen of the navigator's trail; who are you;
// the store's fault; the touch keyboard. The demo mark keeps a strip of its own above all of them.
Window {
    id: root

    required property Shell shell
    property real pxPerMm: 3.6
    property bool dark: true
    property bool lessMotion: false
    property bool sounds: false
    property bool fullScreen: false

    readonly property alias navigator: trail

    width: 1920
    height: 1080
    visible: true
    visibility: fullScreen ? Window.FullScreen : Window.Windowed
    color: Theme.ground
    title: root.shell.siteName.length > 0 ? qsTr("Ramplight: %1").arg(root.shell.siteName) : qsTr("Ramplight")

    Binding {
        target: Theme
        property: "pxPerMm"
        value: root.pxPerMm
    }

    Binding {
        target: Theme
        property: "dark"
        value: root.dark
    }

    Binding {
        target: Theme
        property: "lessMotion"
        value: root.lessMotion
    }

    Binding {
        target: Chime
        property: "on"
        value: root.sounds
    }

    Connections {
        target: Notices

        function onRefused(): void {
            Chime.play(Chime.Refused)
        }
    }

    Navigator {
        id: trail

        onMoved: root.showScreen()
    }

    function showScreen(): void {
        page.forceActiveFocus()
        root.shell.keepPlace(trail.described())
        root.shell.arrivalOpen = trail.screen === "Arrival"
        root.shell.operationOpen = trail.screen === "Operation"
        if (trail.screen === "Wall") {
            screen.source = ""
            return
        }
        const given = { shell: root.shell, navigator: trail }
        if (trail.carId.length > 0)
            given["carId"] = trail.carId
        if (trail.operationId > 0)
            given["operationId"] = trail.operationId
        screen.setSource(trail.screen + "Screen.qml", given)
    }

    // Once, when the wall is there.
    property bool restored: false

    function restorePlace(): void {
        if (root.restored || !root.shell.siteSetUp)
            return
        root.restored = true
        if (root.shell.lastPlace.length > 0)
            trail.restore(root.shell.lastPlace)
    }

    Component.onCompleted: root.restorePlace()

    Connections {
        target: root.shell

        function onSiteChanged(): void {
            root.restorePlace()
        }

        function onCarWanted(carId: string): void {
            trail.home()
            trail.openCar(carId)
        }

        function onOperationWanted(carId: string, operationId: int): void {
            trail.home()
            trail.openCar(carId)
            trail.openOperation(carId, operationId)
        }

        function onWalkRoundWanted(carId: string): void {
            trail.home()
            trail.openCar(carId)
            trail.openWalkRound(carId, 0)
        }

        function onArrivalWanted(vin: string): void {
            trail.openArrival()
        }

        function onWallWanted(): void {
            if (trail.depth > 0)
                trail.home()
            kept.end()
        }
    }

    Rectangle {
        id: demoStrip

        anchors { left: parent.left; right: parent.right; top: parent.top }
        height: root.shell.demo ? Theme.mm(7) : 0
        visible: root.shell.demo
        color: Theme.raised
        z: 1

        Label {
            anchors.centerIn: parent
            text: qsTr("Demo workshop: nothing here is real")
            role: Label.Detail
            paper: false
        }
    }

    ServerStrip {
        id: serverStrip

        anchors { left: parent.left; right: parent.right; top: demoStrip.bottom }
        server: root.shell.server
        z: 1
        onWanted: kept.ask()
    }

    DamageStrip {
        id: damageStrip

        anchors { left: parent.left; right: parent.right; top: serverStrip.bottom }
        recovery: root.shell.recovery
        storeFault: root.shell.storeFault
        z: 1
    }

    Item {
        id: frame

        anchors { left: parent.left; right: parent.right; top: damageStrip.bottom; bottom: parent.bottom }
        clip: true

        // Still pictures burn into a screen: everything wanders by a millimetre or two.
        transform: Translate {
            x: wander.step % 2 === 0 ? 0 : Theme.mm(1)
            y: wander.step % 4 < 2 ? 0 : Theme.mm(1)
        }

        Timer {
            id: wander

            property int step: 0

            interval: 600000
            repeat: true
            running: true
            onTriggered: step = (step + 1) % 4
        }

        FocusScope {
            id: page

            width: frame.width
            height: frame.height
            y: -keyboard.shift
            focus: true
            Keys.onEscapePressed: trail.back()

            Loader {
                id: wall

                readonly property bool wanted: root.shell.siteSetUp

                anchors.fill: parent
                visible: trail.depth === 0
                focus: visible
                onWantedChanged: show()
                Component.onCompleted: show()

                function show(): void {
                    if (wanted)
                        setSource("WallScreen.qml", { shell: root.shell, navigator: trail })
                    else
                        source = ""
                }
            }

            Loader {
                id: screen

                anchors.fill: parent
                focus: !wall.visible
            }

            // Only when a screen's file cannot be shown at all.
            EmptyState {
                anchors.centerIn: parent
                visible: screen.status === Loader.Error
                title: qsTr("This screen cannot be shown")
                hint: qsTr("Nothing is lost. Go back to the wall; if it stays so, the program on this kiosk is damaged.")
                action: qsTr("Back to the wall")
                onActed: trail.home()
            }

            Loader {
                readonly property bool wanted: root.shell.siteRead && !root.shell.siteSetUp

                anchors.fill: parent
                focus: wanted
                onWantedChanged: show()
                Component.onCompleted: show()

                function show(): void {
                    if (wanted)
                        setSource("SetupScreen.qml", { shell: root.shell })
                    else
                        source = ""
                }
            }

            Loader {
                readonly property bool wanted: root.shell.recovery.needed

                anchors.fill: parent
                focus: wanted
                onWantedChanged: show()
                Component.onCompleted: show()

                function show(): void {
                    if (wanted)
                        setSource("RecoveryScreen.qml", { shell: root.shell })
                    else
                        source = ""
                }
            }

            Waiting {
                anchors.centerIn: parent
                visible: !root.shell.siteRead && root.shell.storeFault.length === 0 && !root.shell.recovery.needed
                text: qsTr("Reading the workshop")
            }

            LaterSheet {
                id: kept

                file: "KeptSheet.qml"
                given: ({ server: root.shell.server })
            }

            Loader {
                id: person

                readonly property bool wanted: root.shell.session.stage !== Session.Nobody

                anchors.fill: parent
                focus: wanted
                onWantedChanged: {
                    if (wanted) {
                        setSource("PersonScreen.qml", { shell: root.shell })
                        forceActiveFocus()
                    } else {
                        source = ""
                        page.forceActiveFocus()
                    }
                }
            }
        }

        Banner {
            anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.margin }
            // A damaged file says so by itself, above what can be touched.
            visible: root.shell.storeFault.length > 0 && !root.shell.recovery.needed && !root.shell.recovery.waits
            kind: Banner.Fault
            what: qsTr("The store does not answer")
            todo: root.shell.storeFault
            action: qsTr("Try again")
            closable: false
            onActed: root.shell.tryStoreAgain()
        }

        Banner {
            anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.margin }
            visible: what.length > 0 && root.shell.storeFault.length === 0
            what: root.shell.session.wrongBefore
            todo: qsTr("If that was not you, tell a manager, and take another PIN.")
            onClosed: root.shell.session.putWrongBeforeAway()
        }

        PassingNote {
            anchors { horizontalCenter: parent.horizontalCenter; bottom: parent.bottom; bottomMargin: Theme.touch + 3 * Theme.module }
            text: root.shell.note
            onGone: root.shell.dismissNote()
        }

        TouchKeyboard {
            id: keyboard

            page: page
        }
    }
}
