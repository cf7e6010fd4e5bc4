# What an installed barm consists of, and the two packages that CPack makes of it: one for Debian, and an archive for any
# x86-64 Linux that has libraries, zone rules and fonts inside. ./package builds both.
include(GNUInstallDirs)

# The archive's program finds its libraries beside it. As RPATH, not RUNPATH: only that counts for what the libraries need too.
set_target_properties(barm PROPERTIES BUILD_WITH_INSTALL_RPATH ON INSTALL_RPATH "$ORIGIN/../lib")
target_link_options(barm PRIVATE -Wl,--disable-new-dtags)

set(maintainer "the Barmwright authors <authors@barmwright.invalid>")

# The manual and the completions, by the program itself; Debian's own kind of changelog.
set(manual ${PROJECT_BINARY_DIR}/manual)
string(TIMESTAMP date "%a, %d %b %Y %H:%M:%S +0000" UTC)
configure_file(${PROJECT_SOURCE_DIR}/packaging/changelog.in ${manual}/changelog @ONLY)
add_custom_command(
  OUTPUT ${manual}/barm.1.gz ${manual}/barm.bash ${manual}/_barm ${manual}/barm.fish ${manual}/changelog.gz
  COMMAND ${CMAKE_COMMAND} -E make_directory ${manual}
  COMMAND barm manual man | ${BARM_GZIP} -9n > ${manual}/barm.1.gz
  COMMAND barm manual bash > ${manual}/barm.bash
  COMMAND barm manual zsh > ${manual}/_barm
  COMMAND barm manual fish > ${manual}/barm.fish
  COMMAND ${BARM_GZIP} -9nc ${manual}/changelog > ${manual}/changelog.gz
  DEPENDS barm ${manual}/changelog
  COMMENT "manual and completions"
  VERBATIM)
add_custom_target(package_files DEPENDS ${manual}/barm.1.gz)

set(documents ${CMAKE_INSTALL_DATADIR}/doc/barmwright)
install(TARGETS barm COMPONENT program)
install(FILES ${manual}/barm.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
install(FILES ${manual}/barm.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME barm COMPONENT program)
install(FILES ${manual}/_barm DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions COMPONENT program)
install(FILES ${manual}/barm.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d COMPONENT program)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/examples DESTINATION ${documents} COMPONENT program
  PATTERN daybook EXCLUDE)
install(FILES ${PROJECT_SOURCE_DIR}/NOTICE ${PROJECT_SOURCE_DIR}/CHANGELOG.md DESTINATION ${documents} COMPONENT program)
foreach(text bake-file cautions day daybook json price-file readings testbake-file)
  install(FILES ${PROJECT_SOURCE_DIR}/docs/${text}.md DESTINATION ${documents}/docs COMPONENT program)
endforeach()

# For Debian.
install(FILES ${PROJECT_SOURCE_DIR}/packaging/copyright DESTINATION ${documents} COMPONENT debian)
install(FILES ${manual}/changelog.gz DESTINATION ${documents} COMPONENT debian)
install(FILES ${PROJECT_SOURCE_DIR}/packaging/barmwright.service DESTINATION lib/systemd/user COMPONENT debian)
install(CODE [[file(RPATH_REMOVE FILE "$ENV{DESTDIR}${CMAKE_INSTALL_PREFIX}/bin/barm")]] COMPONENT debian)

# For any Linux.
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${documents} COMPONENT portable)
install(CODE "execute_process(COMMAND \"${PROJECT_SOURCE_DIR}/packaging/bring_along\" \"$<TARGET_FILE:barm>\"
  \"\$ENV{DESTDIR}\${CMAKE_INSTALL_PREFIX}\" COMMAND_ERROR_IS_FATAL ANY)" COMPONENT portable)

set(CPACK_PACKAGE_NAME barmwright)
set(CPACK_PACKAGE_VENDOR "the Barmwright authors")
set(CPACK_PACKAGE_CONTACT "${maintainer}")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "when a dough made with mead, beer or wine is ready")
set(CPACK_PACKAGE_DESCRIPTION
"For bakers who replace the water of a sourdough by mead, perry, stout, wine
or coffee: what is really in the bowl, whether and when the dough will be
ready and how sure that is, the hours that alcohol, salt, acid and sulphite
cost, and how far the drink can go. In the terminal, and as a page in the
browser for all devices of the house, with a daybook of bakes, cultures and
readings.")
set(CPACK_GENERATOR "DEB;TGZ")
set(CPACK_STRIP_FILES ON)
set(CPACK_MONOLITHIC_INSTALL ON)
set(CPACK_THREADS 0)
set(CPACK_PACKAGE_DIRECTORY ${PROJECT_BINARY_DIR}/package)
set(CPACK_BUILD_FOLDER ${PROJECT_BINARY_DIR})
set(CPACK_PROJECT_CONFIG_FILE ${PROJECT_SOURCE_DIR}/cmake/PackageParts.cmake)
# A package is data: it belongs to root and may be read by all, whatever the builder's umask.
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
  OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)

set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# The zone rules are read, not linked; xdg-open opens the browser.
set(CPACK_DEBIAN_PACKAGE_DEPENDS tzdata)
set(CPACK_DEBIAN_PACKAGE_SUGGESTS xdg-utils)
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
include(CPack)
